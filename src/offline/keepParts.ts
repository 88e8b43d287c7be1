import type { Build, Part } from './build.ts'

/** Files whose names change with their content, of all builds. */
const HASHED = 'selion-parts'
/** A build's files whose names stay, such as the page itself. */
const pageCache = (version: string) => `selion-page-${version}`
const IS_OURS = /^selion-(parts$|page-)/
const AT_ONCE = 4

const cacheOf = (build: Build, part: Part) => (part.hashed ? HASHED : pageCache(build.version))

/**
 * Fetches every file of a build and keeps it, with its own checksum held against what came. A file that is kept already,
 * by an older build or by an attempt that was broken off, is not fetched again. Throws where one can't be had whole.
 */
export async function keepParts(
  build: Build,
  caches: CacheStorage,
  told: (done: number, of: number) => void,
): Promise<void> {
  const of = build.parts.reduce((sum, { bytes }) => sum + bytes, 0)
  let done = 0
  const waiting = [...build.parts]
  const work = async () => {
    for (let part = waiting.shift(); part; part = waiting.shift()) {
      const cache = await caches.open(cacheOf(build, part))
      if (!(await cache.match(part.path))) await cache.put(part.path, await fetchWhole(part))
      done += part.bytes
      told(done, of)
    }
  }
  await Promise.all(Array.from({ length: AT_ONCE }, work))
}

async function fetchWhole({ path, integrity, hashed }: Part): Promise<Response> {
  const response = await fetch(path, { integrity, cache: hashed ? 'default' : 'no-cache' })
  if (!response.ok) throw new Error(`${path} could not be fetched (${response.status})`)
  return response
}

export const partKept = {
  /** A file of a build as it is kept, or undefined where the browser has cleared it away. */
  async read(build: Build, caches: CacheStorage, path: string): Promise<Response | undefined> {
    const part = build.parts.find((one) => one.path === path)
    return part && (await caches.open(cacheOf(build, part))).match(path)
  },

  /**
   * A file as the browser's own cache has it, without asking the network; undefined where it has none. What the browser
   * made of a WebAssembly file stays with the answer that it made it of, which on a first visit came before there was a
   * keeper.
   */
  async asFetched(path: string): Promise<Response | undefined> {
    const response = await fetch(path, { cache: 'only-if-cached', mode: 'same-origin' }).catch(() => undefined)
    return response?.ok ? response : undefined
  },

  /** Removes what no file of this build is kept under. */
  async forgetOthers(build: Build, caches: CacheStorage): Promise<void> {
    const own = new Set(build.parts.map((part) => cacheOf(build, part)))
    for (const name of await caches.keys()) if (IS_OURS.test(name) && !own.has(name)) await caches.delete(name)
    const hashed = await caches.open(HASHED)
    const paths = new Set(build.parts.map(({ path }) => path))
    for (const request of await hashed.keys())
      if (!paths.has(new URL(request.url).pathname)) await hashed.delete(request)
  },
}
