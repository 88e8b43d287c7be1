import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { brotliDecompressSync } from 'node:zlib'
import { afterEach, beforeEach, expect, it } from 'vitest'
import { precompressFolder } from '../../../src/build/precompress.ts'

const script = 'const rows = beds.map((bed) => bed.rows)\n'.repeat(200)
/** Bytes that no packing shortens: the high bytes of a linear congruential sequence (Numerical Recipes' constants). */
const noise = Buffer.alloc(4000)
for (let i = 0, n = 1; i < noise.length; i++) {
  n = (Math.imul(n, 1664525) + 1013904223) >>> 0
  noise[i] = n >>> 24
}

let folder = ''
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'selion-dist-'))
  await mkdir(join(folder, 'assets'))
  await writeFile(join(folder, 'assets/page.js'), script)
  await writeFile(join(folder, 'assets/short.js'), 'export {}')
  await writeFile(join(folder, 'assets/photo.png'), script)
  await writeFile(join(folder, 'assets/noise.data'), noise)
})
afterEach(() => rm(folder, { recursive: true, force: true }))

const isPacked = (name: string) =>
  readFile(join(folder, `${name}.br`)).then(
    () => true,
    () => false,
  )

it('packs what gets shorter, and it unpacks to the same', async () => {
  await precompressFolder(folder)
  expect(brotliDecompressSync(await readFile(join(folder, 'assets/page.js.br'))).toString()).toBe(script)
  expect(await isPacked('assets/short.js')).toBe(false)
  expect(await isPacked('assets/photo.png')).toBe(false)
  expect(await isPacked('assets/noise.data')).toBe(false)
})

it('gives the same the second time, from what it has kept', async () => {
  await precompressFolder(folder)
  const first = await readFile(join(folder, 'assets/page.js.br'))
  await rm(join(folder, 'assets/page.js.br'))
  await precompressFolder(folder)
  expect(await readFile(join(folder, 'assets/page.js.br'))).toEqual(first)
  expect(await isPacked('assets/page.js.br')).toBe(false)
})

it('packs what is long as small as it gets where that is asked for, and keeps the two apart', async () => {
  // Lines that differ: the search for what they share is what a better quality does more of.
  const long = Array.from({ length: 3000 }, (_, n) => `bed ${(n * 7919) % 3001}: ${(n * n) % 997} kg`).join('\n')
  await writeFile(join(folder, 'assets/long.js'), long)
  const packedAt = async (longestAtBest: number) => {
    await precompressFolder(folder, { longestAtBest })
    return readFile(join(folder, 'assets/long.js.br'))
  }
  const [quick, small] = [await packedAt(1000), await packedAt(Number.POSITIVE_INFINITY)]
  expect(small.length).toBeLessThan(quick.length)
  expect(brotliDecompressSync(small).toString()).toBe(long)
})
