/**
 * Lets index.html fetch a module that its script imports dynamically, so that nobody waits for two rounds.
 *
 * @param {string} path end of the module's path, e.g. "/start.tsx"
 * @returns {import('vite').Plugin}
 */
export function preloadPlugin(path) {
  return {
    name: 'preload',
    apply: 'build',
    transformIndexHtml: {
      order: 'post',
      handler(html, { bundle }) {
        const start = Object.values(bundle ?? {}).find(({ facadeModuleId }) =>
          facadeModuleId?.endsWith(path),
        );
        if (!start) throw new Error(`no chunk begins with ${path}`);
        const chunks = new Set([start.fileName]);
        // what is added on the way is gone through as well
        for (const file of chunks) for (const imported of bundle[file]?.imports ?? []) chunks.add(imported);
        const styles = new Set(
          [...chunks].flatMap((file) => [...(bundle[file]?.viteMetadata?.importedCss ?? [])]),
        );
        return [
          ...[...chunks].map((file) => link('modulepreload', file)),
          ...[...styles].map((file) => link('stylesheet', file)),
        ].filter(({ attrs }) => !html.includes(attrs.href));
      },
    },
  };
}

const link = (rel, file) => ({
  tag: 'link',
  attrs: { rel, crossorigin: true, href: `./${file}` },
  injectTo: 'head',
});
