import { defineConfig } from 'vitest/config'
import { demoAsset } from './src/build/demoAsset.ts'
import { engineAssets } from './src/build/engineAssets.ts'
import { holdNotice } from './src/build/holdNotice.ts'
import { offline } from './src/build/offline.ts'
import { oneFile } from './src/build/oneFile.ts'
import { precompress } from './src/build/precompress.ts'
import { unpackHere } from './src/build/unpackHere.ts'
import { writePolicy } from './src/build/writePolicy.ts'
import { serverAtHand } from './tests/store/serverAtHand.ts'

/** Tests by what they need: nothing, the outside world, a database, a browser, time. */
const project = (name: string, extra: object = {}) => ({
  test: { name, include: [`tests/${name}/**/*.test.ts`], testTimeout: 30_000, ...extra },
})

const engineReady = { globalSetup: 'tests/store/makeEngine.ts' }

export default defineConfig({
  root: 'src',
  build: {
    outDir: '../dist',
    emptyOutDir: true,
    target: 'es2023',
    rolldownOptions: oneFile('page', 'first.ts', 'main.tsx'),
  },
  plugins: [unpackHere(), engineAssets(), demoAsset(), holdNotice(), writePolicy(), offline(), precompress()],
  worker: {
    format: 'es',
    plugins: () => [engineAssets(), demoAsset(), holdNotice()],
    rolldownOptions: oneFile('startDesk', 'desk/worker.ts', 'desk/startDesk.ts'),
  },
  optimizeDeps: { exclude: ['@electric-sql/pglite', '@electric-sql/pglite-postgis'] },
  test: {
    root: '.',
    maxWorkers: '100%',
    projects: [
      // What these hold is reckoned from what they are given: files share a process, and what it has loaded.
      project('unit', { isolate: false }),
      project('reference', { ...engineReady, isolate: false }),
      project('store', { ...engineReady, isolate: false, hookTimeout: 120_000, testTimeout: 120_000 }),
      project('store-server', {
        include: [serverAtHand() ? 'tests/store/**/*.test.ts' : 'tests/store/engine.test.ts'],
        // What asks the database nothing that the others don't, and what has an engine of its own.
        exclude: ['emplate', 'trimExports', 'cli', 'exchange', 'keep', 'siting', 'rotation', 'drawOps'].map(
          (name) => `tests/store/*${name}*.test.ts`,
        ),
        provide: { engine: 'server' },
        globalSetup: 'tests/store/startServer.ts',
        hookTimeout: 120_000,
        testTimeout: 120_000,
      }),
      project('browser', {
        hookTimeout: 300_000,
        testTimeout: 180_000,
        globalSetup: 'tests/browser/buildPages.ts',
        maxWorkers: 2,
        isolate: false,
        sequence: { groupOrder: 1 },
        expect: { poll: { timeout: 20_000 } },
        // A browser on a busy machine may miss a moment that a test waits for; what fails twice fails.
        retry: 1,
      }),
      project('bench', {
        globalSetup: [engineReady.globalSetup, 'tests/store/startServer.ts', 'tests/browser/buildPages.ts'],
        hookTimeout: 600_000,
        testTimeout: 600_000,
        fileParallelism: false,
      }),
    ],
  },
})
