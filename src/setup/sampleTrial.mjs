// node src/setup/sampleTrial.mjs: makes sample-images/trial-records.zip anew, after a change of what it is made with.
import { checkNode, installPackages, projectFolder } from './install.mjs';
import { kernelsPlugin } from './kernelsPlugin.mjs';

checkNode();
installPackages();
const { createServer } = await import('vite');
// a server and not `runnerImport`, which ends before modules that are fetched late
const server = await createServer({
  root: projectFolder,
  configFile: false,
  appType: 'custom',
  logLevel: 'warn',
  optimizeDeps: { noDiscovery: true },
  server: { middlewareMode: true, hmr: false, ws: false, watch: null },
  plugins: [kernelsPlugin()],
});
const { main } = await server.ssrLoadModule('/tests/sample-trial/main.ts');
const code = await main(process.argv.slice(2));
await server.close();
process.exit(code);
