// npm run test:kill: kills the browser while a mask is corrected, again and again, and looks at what is left.
import { buildApp } from './buildApp.mjs';
import { checkNode, installPackages, projectFolder } from './install.mjs';
import { kernelsPlugin } from './kernelsPlugin.mjs';

checkNode();
// a build made elsewhere may be tested as it is
if (!process.env.SWARDBOOK_DIST) {
  installPackages();
  const built = await buildApp();
  if (built !== 0) process.exit(built);
}
const { runnerImport } = await import('vite');
const { module } = await runnerImport(`${projectFolder}tests/kill/main.ts`, {
  root: projectFolder,
  configFile: false,
  plugins: [kernelsPlugin()],
});
process.exit(await module.main(process.argv.slice(2)));
