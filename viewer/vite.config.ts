import { fileURLToPath } from 'node:url';
import preact from '@preact/preset-vite';
import { defineConfig, type Rolldown } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';
import { pageNotice } from '../packaging/pageNotice.ts';
import { securityHeaders } from './securityHeaders.ts';

const from = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

const quiet: Rolldown.RolldownOptions = {
  checks: { pluginTimings: false },
  onLog(level, log, handle) {
    // The kernel asks for a module of Node where it runs in Node; in a browser it never comes to that.
    if (!/node:module.*externalized.*manifold-3d/s.test(log.message)) handle(level, log);
  },
};

// The page: `npm run build` puts it into dist/page, a folder that any web host can serve from any path.
// What is built is what is served, whoever builds it: a test run says NODE_ENV=test, which gives pieces meant for development,
// among them a service worker that the policy stops.
process.env.NODE_ENV = 'production';

// Fonts come in by style sheets, and what keeps the page without a network comes ready made.
const notice = pageNotice([
  ...['@fontsource/b612', '@fontsource/b612-mono'],
  ...['workbox-core', 'workbox-precaching', 'workbox-routing', 'workbox-strategies'],
]);

export default defineConfig({
  root: from('.'),
  base: './',
  publicDir: from('./public'),
  resolve: { alias: { '@stdlib/assert-has-generator-support': from('./spine/hasGenerators.cjs') } },
  build: {
    outDir: from('../dist/page'),
    emptyOutDir: true,
    target: 'es2022',
    // Data URIs of fonts or wasm would need a wider policy, and swell what is loaded first.
    assetsInlineLimit: 0,
    chunkSizeWarningLimit: 1500,
    rolldownOptions: quiet,
  },
  worker: { format: 'es', rolldownOptions: quiet, plugins: () => [notice.worker()] },
  server: { host: '127.0.0.1' },
  preview: { host: '127.0.0.1', port: 4180, headers: securityHeaders },
  plugins: [
    preact(),
    notice.page,
    VitePWA({
      // Registered by our own module: an inline script is what the policy forbids.
      injectRegister: false,
      registerType: 'prompt',
      mode: 'production',
      workbox: {
        globPatterns: ['**/*.{html,js,css,wasm,woff2,svg,png,webmanifest}'],
        maximumFileSizeToCacheInBytes: 4_000_000,
      },
      manifest: {
        name: 'Fettle',
        short_name: 'Fettle',
        description: 'Turns calliper readings into a spare part that fits',
        display: 'standalone',
        start_url: './',
        scope: './',
        background_color: '#f6f4ee',
        theme_color: '#f6f4ee',
        icons: [
          { src: 'icon.svg', sizes: 'any', type: 'image/svg+xml', purpose: 'any' },
          { src: 'icon-512.png', sizes: '512x512', type: 'image/png', purpose: 'any' },
        ],
      },
    }),
  ],
});
