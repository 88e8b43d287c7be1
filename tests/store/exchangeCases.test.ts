import { readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { loadReading } from '../../geo/exchange/loadReading.ts'
import { readArchive } from '../../geo/exchange/readArchive.ts'
import { readFolder } from '../../src/cli/readFolder.ts'
import { openTestDatabase, SERVER_ABSENT } from './harness.ts'

/** Small archives, each with what must come of it; `SELION_UPDATE_CASES=1` writes the answers anew, to be read as a diff. */
const CASES = 'fixtures/cases'

describe.skipIf(SERVER_ABSENT)('the archives kept as cases', () => {
  it.each(readdirSync(CASES))('%s', async (name) => {
    const { files, faults: ofFolder } = await readFolder(`${CASES}/${name}/archive`)
    const reading = readArchive(files)
    const db = await openTestDatabase()
    const { loaded, faults } = await loadReading(db, reading, { partial: false })
    const ground = loaded
      ? await db.rows<{ id: string; area_m2: number }>(
          `select id, st_area(plan) as area_m2 from fields union all select id, st_area(plan) from beds`,
        )
      : []
    await db.close()
    const came = { counts: reading.counts, faults: [...ofFolder, ...faults], leftOut: reading.leftOut.length }
    const answer = `${CASES}/${name}/expected.json`
    const area = Object.fromEntries(ground.map((one) => [one.id, Math.round(one.area_m2 * 1000) / 1000]))
    if (process.env.SELION_UPDATE_CASES)
      writeFileSync(answer, `${JSON.stringify({ ...came, area_m2: area }, null, 2)}\n`)
    const { area_m2: expectedArea, ...expected } = JSON.parse(readFileSync(answer, 'utf8'))
    expect(came).toEqual(expected)
    expect(Object.keys(area)).toEqual(Object.keys(expectedArea))
    for (const [id, areaM2] of Object.entries(area)) expect(areaM2, id).toBeCloseTo(expectedArea[id], 2)
  })
})
