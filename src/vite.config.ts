import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { build, defineConfig, type Plugin } from 'vite';
import { kernelsPlugin } from './setup/kernelsPlugin.mjs';
import { preloadPlugin } from './setup/preloadPlugin.mjs';
import { serviceWorkerPlugin } from './setup/serviceWorkerPlugin.mjs';

const folder = (path: string) => fileURLToPath(new URL(path, import.meta.url));

/**
 * The page's security policy stands in index.html. The dev server needs inline scripts for its hot updates, so there
 * (and only there) the policy is taken out.
 */
const withoutPolicyInDevelopment: Plugin = {
  name: 'without-policy-in-development',
  apply: 'serve',
  transformIndexHtml: (html, { server }) =>
    server ? html.replace(/<meta\s+http-equiv="Content-Security-Policy"[^>]*>/, '') : html,
};

export default defineConfig({
  root: folder('./app'),
  base: './',
  publicDir: folder('./app/public'),
  build: {
    outDir: folder('../dist'),
    emptyOutDir: true,
    target: ['chrome123', 'firefox125', 'safari17.5'],
    // data: addresses would need a wider policy
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    manifest: true,
    // opencv.js is one script of 11 MB, loaded only when a photo is rectified
    chunkSizeWarningLimit: 12_000,
  },
  worker: { format: 'es', plugins: () => [kernelsPlugin()] },
  plugins: [
    react(),
    kernelsPlugin(),
    withoutPolicyInDevelopment,
    preloadPlugin('/start.tsx'),
    serviceWorkerPlugin({ entry: folder('../workers/offline.worker.ts'), build }),
  ],
});
