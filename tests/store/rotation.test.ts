import loadHighs from 'highs'
import { beforeAll, describe, expect, it } from 'vitest'
import { makeDemoRecords } from '../../fixtures/demo/makeDemo.ts'
import { loadReading } from '../../geo/exchange/loadReading.ts'
import { readArchive } from '../../geo/exchange/readArchive.ts'
import { readRotation } from '../../geo/rotation/readRotation.ts'
import { type RotationAnswer, rotate } from '../../geo/rotation/rotate.ts'
import { readRotationFile } from '../../geo/rotation/rotationFile.ts'
import { openDemo } from '../unit/demo/opened.ts'
import { useDatabase } from './harness.ts'

const demo = openDemo()

/** Where a family comes back too soon, or stands among stock, by the demo's own tables and nothing of the rotation's code. */
function wrongs({ beds, groups, returns, season }: RotationAnswer): string[] {
  const said: string[] = []
  const cropOf = new Map(demo.varieties.map(({ id, crop }) => [id!, crop!]))
  const familyOf = new Map(demo.crops.map(({ id, family }) => [id!, family!]))
  const bedOfRow = new Map(demo.rows.map(({ properties }) => [properties.id, String(properties.bed)]))
  // What is set out from October on grows in the next year.
  const stood = demo.plantings.map((line) => ({
    bed: line.bed || bedOfRow.get(line.row!),
    family: familyOf.get(cropOf.get(line.variety!)!),
    year:
      Number(line.set_out!.slice(0, 4)) +
      (line.set_out!.slice(5) >= '10-01' && line.cleared! > `${line.set_out!.slice(0, 4)}-12-31` ? 1 : 0),
  }))
  for (const { bed, years } of beds) {
    const grows = Object.entries(years).flatMap(([year, name]) =>
      groups.find((group) => group.name === name)!.families.map((family) => ({ bed, family, year: Number(year) })),
    )
    for (const one of grows)
      for (const other of [...stood.filter(({ year }) => year <= season), ...grows]) {
        const apart = one.year - other.year
        const wait = returns.find(({ family }) => family === one.family)!.years
        if (other !== one && other.bed === bed && other.family === one.family && apart >= 0 && apart < wait)
          said.push(`${one.family} in ${bed} in ${one.year} after ${other.year}`)
      }
  }
  return said
}

describe('a rotation of the demo farm', () => {
  const use = useDatabase()
  beforeAll(async () => {
    await loadReading(use.db, readArchive(makeDemoRecords()), { partial: false })
  })
  const carriedOn = async (more: object) => {
    const read = readRotationFile({ season: 2026, years: 3, ...more })
    if ('faults' in read) throw new Error(JSON.stringify(read.faults))
    const found = await readRotation(use.db, read.asked, '2026-12-31')
    if ('faults' in found) throw new Error(JSON.stringify(found.faults))
    const { reading } = found
    return {
      reading,
      answer: rotate(await loadHighs(), reading, { gap: 0.2, seconds: 2, clock: () => performance.now() }),
    }
  }

  it('keeps every return, leaves stock and what was taken out alone, and tells what finds no bed', async () => {
    const { answer, reading } = await carriedOn({ leave: ['b-o1'] })
    expect(wrongs(answer)).toEqual([])
    const left = answer.beds.filter((bed) => Object.keys(bed.years).length === 0).map(({ bed }) => bed)
    const withStock = new Set(reading.beds.filter((bed) => bed.left?.why.startsWith('stock')).map(({ id }) => id))
    expect(withStock.size).toBeGreaterThan(5)
    expect(left).toEqual(expect.arrayContaining(['b-o1', ...withStock]))
    for (const { name, need_m: needM } of answer.groups)
      for (const year of [2027, 2028, 2029]) {
        const metres = answer.beds.reduce((sum, bed) => (bed.years[year] === name ? sum + bed.length_m : sum), 0)
        const short = answer.short.find((one) => one.year === year && one.group === name)?.metres ?? 0
        expect(metres + short, `${name} in ${year}`).toBeGreaterThan(0.95 * needM - 1e-6)
      }
    // A third of the demo's beds bear Solanaceae, which return after four years.
    expect(answer.crowded.map(({ family }) => family)).toContain('Solanaceae')
  })
})
