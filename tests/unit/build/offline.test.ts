import { createHash } from 'node:crypto'
import { readFile } from 'node:fs/promises'
import type { Rollup } from 'vite'
import { afterEach, describe, expect, it, vi } from 'vitest'
import { listParts, manifest } from '../../../src/build/offline.ts'
import type { Build } from '../../../src/offline/build.ts'
import { keepParts, partKept } from '../../../src/offline/keepParts.ts'

const asset = (fileName: string, source: string) => ({ type: 'asset', fileName, source }) as Rollup.OutputAsset
const buildOf = (files: Record<string, string>): Build => ({
  base: '/',
  ...listParts(Object.fromEntries(Object.entries(files).map(([name, text]) => [name, asset(name, text)])), '/'),
})

/** Caches in memory, as far as the keeper uses them. */
function memoryCaches() {
  const all = new Map<string, Map<string, Response>>()
  const pathOf = (what: string | Request) => new URL(typeof what === 'string' ? what : what.url, 'http://page').pathname
  const open = async (name: string) => {
    const files = all.get(name) ?? new Map<string, Response>()
    all.set(name, files)
    return {
      match: async (path: string) => files.get(pathOf(path))?.clone(),
      put: async (path: string, response: Response) => void files.set(pathOf(path), response),
      keys: async () => [...files.keys()].map((path) => new Request(`http://page${path}`)),
      delete: async (request: Request) => files.delete(pathOf(request)),
    }
  }
  const caches = { open, keys: async () => [...all.keys()], delete: async (name: string) => all.delete(name) }
  return { all, caches: caches as unknown as CacheStorage }
}

/** Serves files as a server would, and the browser that holds `integrity` against what comes. */
function serving(files: Record<string, string>): string[] {
  const asked: string[] = []
  vi.stubGlobal('fetch', async (path: string, { integrity }: { integrity: string }) => {
    asked.push(path)
    const text = files[path.slice(1)]
    if (text === undefined) return new Response('', { status: 404 })
    if (integrity !== `sha256-${createHash('sha256').update(text).digest('base64')}`) throw new TypeError('integrity')
    return new Response(text)
  })
  return asked
}

const OLD = { 'index.html': 'old page', 'assets/main-AAAAAAAA.js': 'old', 'assets/engine-EEEEEEEE.wasm': 'engine' }
const NEW = { 'index.html': 'new page', 'assets/main-BBBBBBBB.js': 'new', 'assets/engine-EEEEEEEE.wasm': 'engine' }

it('keeps everything but what the demo farm is begun from', () => {
  const files = [
    'index.html',
    'assets/demo-1a2b-C3d4E5f6.tar',
    'assets/demo-1a2b-photos-C3d4E5f6.zip',
    'assets/demo-1a2b-C3d4E5f6.copy',
    'assets/demo-C3d4E5f6.js',
  ]
  const { parts } = buildOf(Object.fromEntries(files.map((name) => [name, name])))
  expect(parts.map(({ path }) => path)).toEqual(['/assets/demo-C3d4E5f6.js', '/index.html'])
})

describe('the keeper of the page', () => {
  afterEach(() => {
    vi.unstubAllGlobals()
  })

  it('keeps every file, fetches of a newer build only what is new, and drops the rest when that takes over', async () => {
    const { all, caches } = memoryCaches()
    const [older, newer] = [buildOf(OLD), buildOf(NEW)]
    expect(older.version).not.toBe(newer.version)
    const told: number[][] = []
    expect(serving(OLD)).toHaveLength(0)
    await keepParts(older, caches, (done, of) => told.push([done, of]))
    const bytes = Object.values(OLD).join('').length
    expect(told.at(-1)).toEqual([bytes, bytes])
    const text = async (build: Build, path: string) => (await partKept.read(build, caches, path))?.text()
    expect(await text(older, '/index.html')).toBe('old page')

    const asked = serving(NEW)
    await keepParts(newer, caches, () => undefined)
    expect(asked.sort()).toEqual(['/assets/main-BBBBBBBB.js', '/index.html'])
    // Both stand until the newer takes over.
    expect(await text(older, '/index.html')).toBe('old page')
    expect(await text(older, '/assets/main-AAAAAAAA.js')).toBe('old')
    all.set('of-another-page', new Map())
    await partKept.forgetOthers(newer, caches)
    expect([...all.keys()].sort()).toEqual(['of-another-page', 'selion-parts', `selion-page-${newer.version}`].sort())
    expect([...all.get('selion-parts')!.keys()].sort()).toEqual([
      '/assets/engine-EEEEEEEE.wasm',
      '/assets/main-BBBBBBBB.js',
    ])
    expect(await text(newer, '/index.html')).toBe('new page')
  })

  it('takes what was fetched before it from the browser’s own cache, and only from there', async () => {
    const held: Record<string, Response> = {
      '/there.wasm': new Response('engine'),
      '/gone.wasm': new Response('', { status: 404 }),
    }
    // As the Fetch standard has it (WHATWG Fetch, request cache mode “only-if-cached”): what is not there is a network error.
    vi.stubGlobal('fetch', async (path: string, { cache, mode }: RequestInit) => {
      if (cache !== 'only-if-cached' || mode !== 'same-origin' || !held[path]) throw new TypeError('network error')
      return held[path]
    })
    expect(await (await partKept.asFetched('/there.wasm'))?.text()).toBe('engine')
    expect(await partKept.asFetched('/gone.wasm')).toBeUndefined()
    expect(await partKept.asFetched('/never.wasm')).toBeUndefined()
  })

  it.each([
    ['is missing', { ...OLD, 'assets/main-AAAAAAAA.js': undefined }],
    ['is of another build', { ...OLD, 'index.html': 'new page' }],
  ])('does not take a build for whole of which a file %s, and needs less the next time', async (_, served) => {
    const { caches } = memoryCaches()
    serving(served as Record<string, string>)
    await expect(keepParts(buildOf(OLD), caches, () => undefined)).rejects.toThrow()
    await new Promise((go) => setTimeout(go, 0))
    const asked = serving(OLD)
    await keepParts(buildOf(OLD), caches, () => undefined)
    expect(asked).not.toContain('/assets/engine-EEEEEEEE.wasm')
  })
})

it('names pictures of the sizes that they have', async () => {
  // PNG (ISO/IEC 15948) 11.2.2: width and height stand in the header's first eight bytes, from byte 16 on.
  for (const { src, sizes } of manifest('/').icons) {
    const bytes = await readFile(new URL(`../../../src/offline/pictures${src}`, import.meta.url))
    expect(bytes.subarray(1, 4).toString('latin1')).toBe('PNG')
    expect(`${bytes.readUInt32BE(16)}x${bytes.readUInt32BE(20)}`).toBe(sizes)
  }
})
