import { createHash } from 'node:crypto'
import { mkdir, readdir, readFile, rename, rm, stat, utimes, writeFile } from 'node:fs/promises'
import { availableParallelism } from 'node:os'
import { extname, join, resolve } from 'node:path'
import { fileURLToPath } from 'node:url'
import { promisify } from 'node:util'
import { brotliCompress, constants } from 'node:zlib'
import type { Plugin } from 'vite'

const CACHE = fileURLToPath(new URL('../../node_modules/.cache/selion/br/', import.meta.url))
/** Formats that are packed already. */
const PACKED = new Set(['.br', '.gz', '.zip', '.png', '.jpg', '.jpeg', '.webp', '.avif', '.woff2'])
/** Shorter files fit into one packet as they are. */
const SHORTEST = 1024
/** Up to this length the best quality costs little; beyond it, it takes minutes, for a seventh less. */
const LONGEST_AT_BEST = 2 ** 21
/** The mode of a build that is to be put on a host: every file is packed as small as it gets. */
const HOSTED = 'host'
const DAY_MS = 86_400_000

/**
 * Writes `x.br` beside every file `x` of the build that is worth it, for a server to send with `Content-Encoding: br`.
 * What was packed once is kept by its content, so that the next build need not do it again.
 */
export function precompress(): Plugin {
  let folder = ''
  let longestAtBest = LONGEST_AT_BEST
  return {
    name: 'selion-precompress',
    apply: 'build',
    configResolved: (config) => {
      folder = resolve(config.root, config.build.outDir)
      if (config.mode === HOSTED) longestAtBest = Number.POSITIVE_INFINITY
    },
    writeBundle: { sequential: true, order: 'post', handler: () => precompressFolder(folder, { longestAtBest }) },
  }
}

/** Packs the files of `folder`, several at once; those of up to `longestAtBest` bytes as small as they get. */
export async function precompressFolder(
  folder: string,
  { longestAtBest = LONGEST_AT_BEST, now = Date.now() } = {},
): Promise<void> {
  await mkdir(CACHE, { recursive: true })
  const found = await readdir(folder, { recursive: true, withFileTypes: true })
  const paths = found
    .filter((item) => item.isFile() && !PACKED.has(extname(item.name)))
    .map((item) => join(item.parentPath, item.name))
  const sized = await Promise.all(paths.map(async (path) => ({ path, bytes: (await stat(path)).size })))
  const waiting = sized.filter(({ bytes }) => bytes > SHORTEST).sort((a, b) => b.bytes - a.bytes)
  const work = async () => {
    for (let next = waiting.shift(); next; next = waiting.shift()) await packFile(next.path, longestAtBest, now)
  }
  await Promise.all(Array.from({ length: availableParallelism() }, work))
  await forgetUnused(now)
}

async function packFile(path: string, longestAtBest: number, now: number): Promise<void> {
  const bytes = await readFile(path)
  const packed = await packedOnce(bytes, bytes.length > longestAtBest ? 7 : 11, now)
  if (packed.length < bytes.length * 0.95) await writeFile(`${path}.br`, packed)
}

async function packedOnce(bytes: Buffer, quality: number, now: number): Promise<Buffer> {
  const kept = join(CACHE, `${createHash('sha256').update(bytes).digest('hex')}-${quality}`)
  const known = await readFile(kept).catch(() => undefined)
  if (known) {
    await utimes(kept, now / 1000, now / 1000)
    return known
  }
  const packed = await promisify(brotliCompress)(bytes, {
    params: {
      [constants.BROTLI_PARAM_QUALITY]: quality,
      [constants.BROTLI_PARAM_LGWIN]: constants.BROTLI_MAX_WINDOW_BITS,
      [constants.BROTLI_PARAM_SIZE_HINT]: bytes.length,
    },
  })
  const writing = `${kept}.${process.pid}`
  await writeFile(writing, packed)
  await rename(writing, kept)
  return packed
}

async function forgetUnused(now: number): Promise<void> {
  for (const name of await readdir(CACHE)) {
    const { mtimeMs } = await stat(join(CACHE, name))
    if (now - mtimeMs > 30 * DAY_MS) await rm(join(CACHE, name), { force: true })
  }
}
