import { createHash } from 'node:crypto'
import { access, rename, writeFile } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { makeDemo } from '../../fixtures/demo/makeDemo.ts'
import { PHOTO_FOLDER } from '../../geo/exchange/archive.ts'
import { loadReading } from '../../geo/exchange/loadReading.ts'
import { readArchive } from '../../geo/exchange/readArchive.ts'
import { writeZip } from '../../geo/exchange/writeZip.ts'
import { makeCopy } from '../../geo/keep/copies.ts'
import { memoryShelf } from '../../geo/keep/shelf.ts'
import type { Database } from '../../geo/store/database.ts'
import { engineFiles } from '../../geo/store/template/engineFiles.ts'
import { fillTemplate } from '../../geo/store/template/fillTemplate.ts'

/** Where the files lie that the page opens the demo farm from. */
export interface DemoFiles {
  /** A data directory with the farm in it, a tar archive. */
  readonly template: string
  /** The photos folder of its archive, a zip. */
  readonly photos: string
  /** Its first logical copy. */
  readonly copy: string
}

const making: { files?: Promise<DemoFiles> } = {}

/** The files for this demo farm, this engine and these migrations, from the cache or made now (some ten seconds, once). */
export function demoFiles(): Promise<DemoFiles> {
  making.files ??= makeFiles()
  return making.files
}

async function makeFiles(): Promise<DemoFiles> {
  const archive = makeDemo()
  const reading = readArchive(archive)
  if (!reading.content || reading.faults.length > 0)
    throw new Error(`the demo farm has faults: ${JSON.stringify(reading.faults.slice(0, 3))}`)
  const photos = writeZip(new Map([...archive].filter(([path]) => path.startsWith(PHOTO_FOLDER))))
  const hash = createHash('sha256').update(photos)
  hash.update(JSON.stringify([reading.content.farm, ...reading.content.records]))
  // Beside the engine's own files, so that it is made anew with them and goes with them.
  const stem = join(dirname((await engineFiles()).template), `demo-${hash.digest('hex').slice(0, 16)}`)
  const files = { template: `${stem}.tar`, photos: `${stem}-photos.zip`, copy: `${stem}.copy` }
  await put(files.photos, () => photos)
  await put(files.template, () =>
    fillTemplate(async (db) => {
      const { loaded, faults } = await loadReading(db, reading, { partial: false })
      if (!loaded) throw new Error(`the demo farm has faults: ${JSON.stringify(faults.slice(0, 3))}`)
      // Before the template is: where that stands, this does.
      await put(files.copy, () => copyOf(db))
    }),
  )
  return files
}

async function copyOf(db: Database): Promise<Uint8Array> {
  const kept = new Map<string, Uint8Array>()
  await makeCopy(db, memoryShelf(kept), 'demo', 0, async () => true)
  return kept.get('demo/copy.base')!
}

/** Writes a file where there is none, whole or not at all. */
async function put(path: string, make: () => Uint8Array | Promise<Uint8Array>): Promise<void> {
  const isThere = await access(path).then(
    () => true,
    () => false,
  )
  if (isThere) return
  const writing = `${path}.${process.pid}`
  await writeFile(writing, await make())
  await rename(writing, path)
}
