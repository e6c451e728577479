import type { build, Plugin } from 'vite';

export function serviceWorkerPlugin(options: { entry: string; build: typeof build }): Plugin;
