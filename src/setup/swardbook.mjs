// npm run swardbook: bundles the command line when its sources changed and runs it in this process, so that exit
// codes and signals are its own.
import { pathToFileURL } from 'node:url';
import { buildCli } from './buildCli.mjs';
import { checkNode, installPackages } from './install.mjs';

checkNode();
installPackages();
await import(pathToFileURL(await buildCli()).href);
