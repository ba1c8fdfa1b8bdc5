import react from '@vitejs/plugin-react';
import type { Plugin } from 'vite';
import { defineConfig } from 'vitest/config';

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

export default defineConfig({
  root: 'src',
  base: './',
  publicDir: 'public',
  cacheDir: '../node_modules/.vite',
  plugins: [react(), policyTag()],
  worker: { format: 'es' },
  build: { outDir: '../dist', emptyOutDir: true, chunkSizeWarningLimit: 1200 },
  server: { fs: { allow: ['..'] } },
  preview: { headers: { 'Content-Security-Policy': CONTENT_POLICY } },
  test: {
    dir: 'tests',
    include: ['**/*.test.{ts,tsx}'],
    exclude: ['browser/**'],
    // sweeps and recorded placements take their time on two shared cores
    testTimeout: 120_000,
  },
});
