import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { join } from 'node:path'
import { expect, it } from 'vitest'
import { engineFiles } from '../../geo/store/template/engineFiles.ts'
import { openNodeDatabase } from '../../geo/store/template/nodeEngine.ts'
import { DATABASE_PARTS, type EnginePart, POSTGIS_PARTS } from '../../src/build/notice/engineParts.ts'

const version = (parts: readonly EnginePart[], name: string) =>
  parts.find((part) => part.name.startsWith(name))!.version

// What the engine says of itself (X), against what the notice says that it is linked from.
it('names the versions that the engine is linked from', async () => {
  const db = await openNodeDatabase()
  try {
    const [told] = await db.rows<{ postgis: string; postgres: string }>(
      'select postgis_full_version() as postgis, version() as postgres',
    )
    expect(told!.postgis).toContain(`POSTGIS="${version(POSTGIS_PARTS, 'PostGIS')} `)
    expect(told!.postgis).toContain(`GEOS="${version(POSTGIS_PARTS, 'GEOS')}-`)
    expect(told!.postgis).toContain(`PROJ="${version(POSTGIS_PARTS, 'PROJ')} `)
    expect(told!.postgis).toContain(`LIBXML="${version(POSTGIS_PARTS, 'libxml2')}"`)
    expect(told!.postgis).toContain(`LIBJSON="${version(POSTGIS_PARTS, 'json-c')}"`)
    expect(told!.postgres).toContain(`PostgreSQL ${version(DATABASE_PARTS, 'PostgreSQL')} `)
    expect(told!.postgres).toContain(` ${version(DATABASE_PARTS, 'Emscripten')} `)
  } finally {
    await db.close()
  }
}, 120_000)

it('names the libraries whose versions stand in its files', async () => {
  const postgis = await readFile((await engineFiles()).postgis)
  const database = createRequire(import.meta.url).resolve('@electric-sql/pglite')
  const pglite = await readFile(join(database, '../pglite.wasm'))
  const zlib = `\0${version(DATABASE_PARTS, 'zlib')}\0`
  const within = (file: Buffer, text: string) => [text, file.includes(text)]
  for (const [file, text] of [
    [postgis, `/gdal-${version(POSTGIS_PARTS, 'GDAL')}/`],
    [postgis, `LIBTIFF, Version ${version(POSTGIS_PARTS, 'LibTIFF')}`],
    [postgis, `\0${version(POSTGIS_PARTS, 'SQLite')}\0`],
    [postgis, zlib],
    [pglite, `/share/icu/${version(DATABASE_PARTS, 'ICU')}`],
    [pglite, zlib],
  ] as const)
    expect(within(file, text)).toEqual([text, true])
}, 120_000)
