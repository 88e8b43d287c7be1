import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { promisify } from 'node:util'
import { gunzip } from 'node:zlib'
import { expect, it } from 'vitest'
import { engineFiles } from '../../geo/store/template/engineFiles.ts'
import { openNodeDatabase } from '../../geo/store/template/nodeEngine.ts'
import { fileInTar } from '../../geo/store/template/tar.ts'
import { trimExports } from '../../geo/store/template/trimExports.ts'

const { WebAssembly: wasm } = globalThis as unknown as {
  WebAssembly: {
    Module: {
      new (bytes: Uint8Array): object
      exports(module: object): { name: string; kind: string }[]
      imports(module: object): { name: string; module: string }[]
    }
  }
}

// What V8 reads in the modules is held against what was cut, and the database's own list of functions against both.
it('PostGIS keeps every export that it takes from itself, and every function that its database names', async () => {
  const bundle = createRequire(import.meta.url)
    .resolve('@electric-sql/pglite-postgis')
    .replace(/[^/\\]*$/, 'postgis.tar.gz')
  const tar = await promisify(gunzip)(await readFile(bundle))
  const whole = new wasm.Module(fileInTar(tar, 'lib/postgresql/postgis-3.so'))
  const trimmed = new wasm.Module(await readFile((await engineFiles()).postgis))
  const exportsOf = (module: object) => new Map(wasm.Module.exports(module).map(({ name, kind }) => [name, kind]))
  const [all, kept] = [exportsOf(whole), exportsOf(trimmed)]
  expect(kept.size).toBeLessThan(all.size / 2)
  expect([...kept].filter(([name, kind]) => all.get(name) !== kind)).toEqual([])
  expect(wasm.Module.imports(trimmed)).toEqual(wasm.Module.imports(whole))
  const own = wasm.Module.imports(whole).filter(({ name }) => all.has(name))
  expect(own.length).toBeGreaterThan(5000)
  expect(own.filter(({ name }) => !kept.has(name))).toEqual([])
  const db = await openNodeDatabase()
  try {
    const named = await db.rows<{ name: string }>(
      "select distinct prosrc as name from pg_proc where probin like '%postgis-3'",
    )
    expect(named.length).toBeGreaterThan(400)
    expect(named.filter(({ name }) => !kept.has(name) || !kept.has(`pg_finfo_${name}`))).toEqual([])
  } finally {
    await db.close()
  }
})

it('what is no module is refused', () => {
  expect(() => trimExports(new Uint8Array([1, 2, 3, 4, 5, 6, 7, 8]))).toThrow(/no WebAssembly module/)
})
