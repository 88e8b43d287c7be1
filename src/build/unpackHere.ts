import type { Plugin } from 'vite'

const HERE = '\0selion-unzlib'

/**
 * Has the PDF library's reader of PNGs unpack where it is called: by itself it starts a worker from a blob, which the
 * page's policy forbids, and then waits for it for good.
 */
export function unpackHere(): Plugin {
  return {
    name: 'selion-unpack-here',
    enforce: 'pre',
    resolveId: (id, importer) => (id === 'fflate' && importer?.includes('/png-js/') ? HERE : undefined),
    load: (id) =>
      id === HERE
        ? `import { unzlibSync } from 'fflate'
export const unzlib = (bytes, done) => {
  try {
    done(null, unzlibSync(bytes))
  } catch (error) {
    done(error)
  }
}`
        : undefined,
  }
}
