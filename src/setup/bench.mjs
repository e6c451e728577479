// npm run bench: accuracy on the sample photos, speed and memory in a real browser, beside the targets.
import { buildApp } from './buildApp.mjs';
import { checkNode, installPackages, projectFolder } from './install.mjs';
import { kernelsPlugin } from './kernelsPlugin.mjs';

checkNode();
installPackages();
const built = await buildApp();
if (built !== 0) process.exit(built);
const { runnerImport } = await import('vite');
const { module } = await runnerImport(`${projectFolder}tests/bench/main.ts`, {
  root: projectFolder,
  configFile: false,
  plugins: [kernelsPlugin()],
});
process.exit(await module.main(process.argv.slice(2)));
