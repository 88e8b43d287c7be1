import { readFile } from 'node:fs/promises'
import { expect, it } from 'vitest'
import { makeDemo } from '../../fixtures/demo/makeDemo.ts'
import { PHOTO_FOLDER } from '../../geo/exchange/archive.ts'
import { readArchive } from '../../geo/exchange/readArchive.ts'
import { readContent } from '../../geo/exchange/readContent.ts'
import { readZip } from '../../geo/exchange/readZip.ts'
import { writeArchive } from '../../geo/exchange/writeArchive.ts'
import { makeCopy, takeBase } from '../../geo/keep/copies.ts'
import { memoryShelf } from '../../geo/keep/shelf.ts'
import { measure } from '../../geo/measure/measure.ts'
import { openEmbedded } from '../../geo/store/embedded.ts'
import { engineFiles } from '../../geo/store/template/engineFiles.ts'
import { engineOptions } from '../../geo/store/template/engineOptions.ts'
import { demoFiles } from '../../src/build/demoFiles.ts'

it('holds the demo farm as its archive gives it, byte for byte, and reckons in its plane', async () => {
  const [demo, engine] = await Promise.all([demoFiles(), engineFiles()])
  const [postgis, projDb, template] = await Promise.all([
    readFile(engine.postgis),
    readFile(engine.projDb),
    readFile(demo.template),
  ])
  const db = await openEmbedded(engineOptions({ postgis, projDb, template: new Blob([template]) }))
  try {
    const { files } = readZip(await readFile(demo.photos))
    const photos = new Map([...files].map(([path, bytes]) => [path.slice(PHOTO_FOLDER.length), bytes]))
    const held = writeArchive(await db.transaction((tx) => readContent(tx, photos)))
    const given = writeArchive(readArchive(makeDemo()).content!)
    expect([...held.keys()]).toEqual([...given.keys()])
    for (const [path, bytes] of given) expect(Buffer.from(held.get(path)!).equals(bytes), path).toBe(true)
    const { fields } = await measure(db, '2025-08-01')
    expect(fields.reduce((sum, field) => sum + field.climbing_m, 0)).toBeGreaterThan(100)
    // The copy that comes with it is what a copy made of it here would be.
    const [came, made] = [memoryShelf(), memoryShelf()]
    await takeBase(came, 'demo', await readFile(demo.copy), 1)
    await makeCopy(db, made, 'demo', 1, async () => true)
    expect(Buffer.compare((await came.read('demo/copy.base'))!, (await made.read('demo/copy.base'))!)).toBe(0)
    // It is a farm's first state, which stands in no journal.
    expect(await db.rows('select count(*) as steps from steps')).toEqual([{ steps: 0 }])
  } finally {
    await db.close()
  }
})
