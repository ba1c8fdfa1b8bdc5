import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import type { Plugin } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';
import { defineConfig } from 'vitest/config';
import { FIRST_EXAMPLE } from './src/app/state/firstExample.ts';
import { guide } from './vite.guide.ts';

/**
 * What the built page may load: its own files and nothing else. 'blob:' and 'data:' are pictures and textures
 * that the page makes itself. The development server needs inline scripts, so that only the build has it.
 */
const CONTENT_POLICY = [
  "default-src 'self'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' data: blob:",
  "font-src 'self'",
  "connect-src 'self' blob:",
  "worker-src 'self'",
  "object-src 'none'",
  "base-uri 'none'",
  "form-action 'none'",
].join('; ');

/** The policy as a meta tag, for servers that send no header; the README gives the header. */
const policyTag = (): Plugin => ({
  name: 'content-policy-tag',
  apply: 'build',
  transformIndexHtml: () => [
    {
      tag: 'meta',
      attrs: { 'http-equiv': 'Content-Security-Policy', content: CONTENT_POLICY },
      injectTo: 'head-prepend',
    },
  ],
});

/**
 * Gives `import workshop from 'virtual:workshop'`, the address of the worker, built together with the page so that the
 * two share their files: most of the worker's code is the page's too, and is fetched once.
 */
const sharedWorker = (): Plugin => {
  const own = '\0virtual:workshop';
  const entry = fileURLToPath(new URL('./src/worker/workshop.ts', import.meta.url));
  let isBuild = false;
  return {
    name: 'shared-worker',
    configResolved: ({ command }) => {
      isBuild = command === 'build';
    },
    resolveId: id => (id === 'virtual:workshop' ? own : undefined),
    load(id) {
      if (id !== own) return undefined;
      if (!isBuild) return "export default '/worker/workshop.ts'";
      const chunk = this.emitFile({ type: 'chunk', id: entry, name: 'workshop' });
      return `export default import.meta.ROLLUP_FILE_URL_${chunk}`;
    },
  };
};

/**
 * Gives `import first from 'virtual:first-example'`, the address of the example that the page opens with, read already
 * while the page is built, so that the page shows an axle before it has fetched its file reader. While developing
 * there is none, and the reader reads the example as it reads any file.
 */
const firstExample = (): Plugin => {
  const own = '\0virtual:first-example';
  let isBuild = false;
  return {
    name: 'first-example',
    configResolved: ({ command }) => {
      isBuild = command === 'build';
    },
    resolveId: id => (id === 'virtual:first-example' ? own : undefined),
    async load(id) {
      if (id !== own) return undefined;
      if (!isBuild) return 'export default null';
      const { readBuild } = await import('./geometry/build/read.ts');
      const text = readFileSync(`examples/${FIRST_EXAMPLE}`, 'utf8');
      const read = readBuild(text);
      if (!read.ok) throw new Error(`${FIRST_EXAMPLE} has problems`);
      const { build, file } = read;
      const source = JSON.stringify({ fileName: FIRST_EXAMPLE, text, build, file });
      const asset = this.emitFile({ type: 'asset', name: 'first-example.json', source });
      return `export default import.meta.ROLLUP_FILE_URL_${asset}`;
    },
  };
};

/**
 * Keeps the whole page in the browser, so that it works in a shop without a network. A newer page is fetched beside
 * the older one and takes its place once no tab shows that any more: nothing is reloaded under anybody's hands.
 */
const offline = () =>
  VitePWA({
    registerType: 'prompt',
    injectRegister: false,
    manifest: {
      name: 'Axlewalk',
      short_name: 'Axlewalk',
      description: 'Walk a solid axle through every position that it can reach.',
      lang: 'en-US',
      start_url: './',
      display: 'standalone',
      background_color: '#eef0ee',
      theme_color: '#eef0ee',
      icons: [{ src: 'mark.svg', sizes: 'any', type: 'image/svg+xml' }],
    },
    workbox: {
      globPatterns: ['**/*.{html,js,css,svg,woff2,json,stl,obj,glb,md}'],
      maximumFileSizeToCacheInBytes: 12 * 1024 * 1024,
      inlineWorkboxRuntime: true,
      sourcemap: false,
    },
  });

/** Tests of what holds state of its own, a store or a document: each file starts from nothing. */
const HOLDING_STATE = ['app/**/*.test.{ts,tsx}', 'viewer/**/*.test.{ts,tsx}'];

export default defineConfig({
  root: 'src',
  base: './',
  publicDir: 'public',
  cacheDir: '../node_modules/.vite',
  plugins: [react(), sharedWorker(), firstExample(), guide(), policyTag(), offline()],
  build: {
    outDir: '../dist',
    emptyOutDir: true,
    chunkSizeWarningLimit: 1200,
    // a worker has no document to hang links for preloading on
    modulePreload: {
      polyfill: false,
      resolveDependencies: (_, files, { hostType }) => (hostType === 'html' ? files : []),
    },
  },
  server: { fs: { allow: ['..'] } },
  preview: { headers: { 'Content-Security-Policy': CONTENT_POLICY } },
  test: {
    // sweeps and recorded placements take their time on two shared cores
    testTimeout: 120_000,
    // every core: left to itself it leaves one of two idle
    maxWorkers: '100%',
    projects: [
      {
        extends: true,
        test: {
          name: 'tool',
          dir: 'tests',
          include: ['**/*.test.{ts,tsx}'],
          exclude: ['browser/**', ...HOLDING_STATE],
          // pure functions: what one file has loaded serves the next, a third of the time of all
          isolate: false,
        },
      },
      {
        extends: true,
        test: { name: 'page', dir: 'tests', include: HOLDING_STATE },
      },
    ],
  },
});
