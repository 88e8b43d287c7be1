import { mkdir, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import type { Plugin } from 'vite'
import { makeDemo } from '../../fixtures/demo/makeDemo.ts'
import { writeZip } from '../../geo/exchange/writeZip.ts'

const NAME = 'virtual:selion-demo'
const RESOLVED = `\0${NAME}`
const CACHE = fileURLToPath(new URL('../../node_modules/.cache/selion/', import.meta.url))

/** Gives the page the demo farm as `virtual:selion-demo`: the address of its archive, made when it is asked for. Needed among the worker's plugins too. */
export function demoAsset(): Plugin {
  return {
    name: 'selion-demo',
    resolveId: (id) => (id === NAME ? RESOLVED : undefined),
    load: async (id) => {
      if (id !== RESOLVED) return undefined
      const path = join(CACHE, 'demo.zip')
      await mkdir(CACHE, { recursive: true })
      await writeFile(path, writeZip(makeDemo()))
      return `import demoUrl from ${JSON.stringify(`${path}?url`)}\nexport { demoUrl }`
    },
  }
}
