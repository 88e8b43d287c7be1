import { describe, expect, it } from 'vitest'
import { makeDemoRecords } from '../../../fixtures/demo/makeDemo.ts'
import { readArchive } from '../../../geo/exchange/readArchive.ts'
import { readPartRule } from '../../../geo/supports/partRule.ts'
import { type Line, number, openDemo } from './opened.ts'

const demo = openDemo()
const ids = (records: readonly Line[]) => new Set(records.map((record) => record.id))
const idsOf = (features: readonly { properties: { id: string } }[]) => new Set(features.map((one) => one.properties.id))
const seasonOf = (day: string | undefined) => day?.slice(0, 4)

describe('the demo farm', () => {
  it('says that it is invented, and lies outside the United States', () => {
    expect(demo.farm).toMatchObject({ format: 'selion-farm', version: 1, units: 'metric', currency: 'EUR' })
    expect(demo.farm.name).toMatch(/invented/)
    expect(demo.farm.note).toMatch(/invented/)
    expect(demo.farm.origin[0]).toBeGreaterThan(0)
  })

  it('is as rich as every sheet needs', () => {
    expect(demo.fields).toHaveLength(3)
    expect(demo.beds).toHaveLength(60)
    expect(demo.systems.length).toBeGreaterThanOrEqual(8)
    expect(demo.crops.length).toBeGreaterThanOrEqual(18)
    expect(demo.picks.length).toBeGreaterThan(1400)
    expect(demo.picks.length).toBeLessThan(1900)
    expect(new Set(demo.shares.map((share) => share.to)).size).toBeGreaterThanOrEqual(6)
    expect(demo.lots.length).toBeGreaterThanOrEqual(12)
    const used = new Set(demo.supports.map((run) => run.properties.system))
    expect(used).toEqual(ids(demo.systems))
    for (const season of ['2024', '2025', '2026']) {
      const picks = demo.picks.filter((pick) => seasonOf(pick.on) === season)
      expect(new Set(picks.map((pick) => pick.planting)).size).toBeGreaterThan(150)
      expect(demo.supports.some((run) => String(run.properties.put_up).startsWith(season))).toBe(true)
    }
  })

  it('has young and old walnuts, on their own and on black walnut roots', () => {
    const walnuts = demo.trees.filter((tree) => String(tree.properties.species).startsWith('Juglans'))
    const kinds = new Set(
      walnuts.map(({ properties }) => {
        const age =
          String(properties.planted) < '2000' ? 'old' : String(properties.planted) >= '2020' ? 'young' : 'middling'
        return `${age} ${properties.species}${properties.rootstock ? ` on ${properties.rootstock}` : ''}`
      }),
    )
    for (const kind of [
      'old Juglans nigra',
      'old Juglans regia on Juglans regia (own roots)',
      'old Juglans regia on Juglans nigra',
      'young Juglans regia on Juglans regia (own roots)',
      'young Juglans regia on Juglans nigra',
    ])
      expect(kinds).toContain(kind)
  })

  it('has no fault by the archive reader, and no id twice', () => {
    const reading = readArchive(demo.files)
    expect(reading.faults).toEqual([])
    expect(reading.ignored).toEqual([])
    for (const records of [
      demo.crops,
      demo.varieties,
      demo.plantings,
      demo.picks,
      demo.systems,
      demo.dressings,
      demo.lots,
      demo.moves,
    ])
      expect(ids(records).size).toBe(records.length)
    for (const features of [demo.beds, demo.rows, demo.trees, demo.supports, demo.structures, demo.observations])
      expect(idsOf(features).size).toBe(features.length)
  })

  it('refers only to records that are there', () => {
    const [crops, varieties, plantings, picks] = [
      ids(demo.crops),
      ids(demo.varieties),
      ids(demo.plantings),
      ids(demo.picks),
    ]
    const [systems, lots, beds, rows, fields] = [
      ids(demo.systems),
      ids(demo.lots),
      idsOf(demo.beds),
      idsOf(demo.rows),
      idsOf(demo.fields),
    ]
    const missing = [
      ...demo.varieties.filter((one) => !crops.has(one.crop)),
      ...demo.containers.filter((one) => one.crop && !crops.has(one.crop)),
      ...demo.plantings.filter(
        (one) => !varieties.has(one.variety) || !(one.row ? rows.has(one.row) : beds.has(one.bed ?? '')),
      ),
      ...demo.picks.filter((one) =>
        one.planting ? !plantings.has(one.planting) : one.bed ? !beds.has(one.bed) : !one.lon,
      ),
      ...demo.shares.filter((one) => !picks.has(one.pick)),
      ...demo.parts.filter((one) => !systems.has(one.system)),
      ...demo.work.filter((one) => !systems.has(one.system)),
      ...demo.dressings.filter((one) => !beds.has(one.bed ?? '')),
      ...demo.lots.filter((one) => !rows.has(one.row ?? '')),
      ...demo.moves.filter((one) => !lots.has(one.lot)),
      ...demo.beds.filter((one) => !fields.has(String(one.properties.field))),
      ...demo.rows.filter((one) => !beds.has(String(one.properties.bed))),
      ...demo.supports.filter((one) => !systems.has(String(one.properties.system))),
    ]
    expect(missing).toEqual([])
  })

  it('gives every support rule in a form that can be counted by', () => {
    expect(demo.parts.map((part) => part.rule).filter((rule) => !readPartRule(rule ?? ''))).toEqual([])
  })

  it('divides no pick into more than the whole of it', () => {
    const parts = new Map<string, number>()
    for (const { pick = '', part } of demo.shares) {
      expect(number(part)).toBeGreaterThan(0)
      parts.set(pick, (parts.get(pick) ?? 0) + number(part))
    }
    expect(Math.max(...parts.values())).toBeLessThanOrEqual(1 + 1e-12)
    expect(parts.size).toBeGreaterThan(demo.picks.length / 2)
  })

  it('never takes more plants out of a lot than it holds', () => {
    for (const lot of demo.lots) {
      const moves = demo.moves.filter((move) => move.lot === lot.id)
      expect(moves.every((move) => number(move.count) > 0 && (move.on ?? '') >= `${lot.year}-01-01`)).toBe(true)
      const sum = (...of: string[]) =>
        moves.reduce((all, { move, count }) => (of.includes(move ?? '') ? all + number(count) : all), 0)
      expect(sum('sold', 'lost')).toBeLessThanOrEqual(number(lot.count))
      expect(sum('lifted', 'lost')).toBeLessThanOrEqual(number(lot.count))
      expect(sum('sold', 'lost', 'reserved')).toBeLessThanOrEqual(number(lot.count))
    }
    expect(demo.moves.some((move) => move.move === 'lifted' && (move.on ?? '').startsWith('2026-11'))).toBe(true)
  })

  it('comes out the same for the same seed, and otherwise for another', () => {
    const again = makeDemoRecords(1)
    expect([...again.keys()]).toEqual([...demo.files.keys()])
    for (const [name, bytes] of again) expect(Buffer.compare(bytes, demo.files.get(name)!), name).toBe(0)
    const other = makeDemoRecords(2)
    expect(Buffer.compare(other.get('picks.csv')!, demo.files.get('picks.csv')!)).not.toBe(0)
    expect(Buffer.compare(other.get('beds.geojson')!, demo.files.get('beds.geojson')!)).toBe(0)
  })

  it('ends its table lines as RFC 4180 says', () => {
    for (const name of demo.files.keys()) {
      if (name.endsWith('.csv')) expect(demo.text(name).replaceAll('\r\n', ''), name).not.toMatch(/[\r\n]/)
    }
  })
})
