import { stat } from 'node:fs/promises'
import type { Plugin } from 'vite'
import { demoFiles } from './demoFiles.ts'

const NAME = 'virtual:selion-demo'
const RESOLVED = `\0${NAME}`

/** Gives the page the demo farm as `virtual:selion-demo`: a database with it, its photos, and its first copy. Needed among the worker's plugins too. */
export function demoAsset(): Plugin {
  return {
    name: 'selion-demo',
    resolveId: (id) => (id === NAME ? RESOLVED : undefined),
    load: async (id) => {
      if (id !== RESOLVED) return undefined
      const { template, photos, copy } = await demoFiles()
      return [
        `import url from ${JSON.stringify(`${template}?url`)}`,
        `import photosUrl from ${JSON.stringify(`${photos}?url`)}`,
        `import copyUrl from ${JSON.stringify(`${copy}?url`)}`,
        `export const demoTemplate = { url, bytes: ${(await stat(template)).size} }`,
        'export const demoPhotosUrl = photosUrl',
        'export const demoCopyUrl = copyUrl',
      ].join('\n')
    },
  }
}
