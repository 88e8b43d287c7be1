import { describe, expect, it } from 'vitest'
import { cropOf } from '../../../geo/catalogue/catalogueCrop.ts'
import { CATALOGUE } from '../../../geo/catalogue/crops.ts'
import { familyNamed, returnYears } from '../../../geo/catalogue/families.ts'
import { readArchive } from '../../../geo/exchange/readArchive.ts'
import { writeTable } from '../../../geo/exchange/writeTable.ts'
import { crops } from '../../../geo/model/crops.ts'
import { archiveOf } from '../exchange/archiveOf.ts'

const entry = (key: string) => {
  const found = CATALOGUE.find((one) => one.key === key)
  if (!found) throw new Error(`no ${key} in the catalogue`)
  return found
}

describe('the catalogue of crops', () => {
  it('has some sixty crops or more, each once, by botanical families', () => {
    expect(CATALOGUE.length).toBeGreaterThanOrEqual(60)
    expect(new Set(CATALOGUE.map(({ key }) => key)).size).toBe(CATALOGUE.length)
    expect(new Set(CATALOGUE.map(({ name }) => name)).size).toBe(CATALOGUE.length)
    // A family's name ends in -aceae (ICN, article 18.1; M).
    for (const { key, family } of CATALOGUE) expect(family, key).toMatch(/^[A-Z][a-z]+aceae$/)
  })

  it('gives a source with every value, and sound values', () => {
    for (const one of CATALOGUE) {
      const record = cropOf(one, one.key)
      const pairs = [
        [record.climbs, record.climbs_source],
        [record.juglone, record.juglone_source],
        [record.return_years, record.return_source],
        [record.usual_spacing_m, record.spacing_source],
        [record.yield_high_kg_per_m2, record.yield_source],
        [record.touches_soil, record.touches_soil_source],
        [record.first_pick_days, record.first_pick_source],
        [record.stands_years, record.stands_source],
      ]
      for (const [value, source] of pairs) expect(source === null, `${one.key}: ${value}`).toBe(value === null)
      for (const [name, field] of Object.entries(crops.fields))
        expect(
          field.schema.safeParse((record as unknown as Record<string, unknown>)[name]).success,
          `${one.key} ${name}`,
        ).toBe(true)
      expect(record.yield_low_kg_per_m2! <= record.yield_high_kg_per_m2!).toBe(true)
    }
  })

  // Morton Arboretum; Univ. of Wisconsin–Madison XHT1017 (C2): the whole of both lists, and nothing else.
  it('has the juglone classes that are listed, and says what is inferred', () => {
    const listed = (of: string) =>
      CATALOGUE.filter(({ juglone }) => juglone[0] === of && juglone[2] === 'listed').map(({ key }) => key)
    expect(listed('sensitive').sort()).toEqual([
      'asparagus',
      'cabbage',
      'eggplant',
      'pepper',
      'potato',
      'rhubarb',
      'tomato',
    ])
    expect(listed('tolerant').sort()).toEqual([
      'beetroot',
      'bush-bean',
      'carrot',
      'climbing-squash',
      'dry-bean',
      'melon',
      'onion',
      'parsnip',
      'pole-bean',
      'sweet-corn',
      'winter-squash',
      'zucchini',
    ])
    expect(listed('unknown')).toEqual([])
    expect(entry('leek').juglone).toEqual(['tolerant', expect.stringMatching(/inferred from onion/), 'inferred'])
  })

  // New England Vegetable Guide, table 15 (C): lb an acre, low and excellent; 1 lb/acre = 1.1208511e-4 kg/m² (X).
  it.each([
    ['bush-bean', 4_000, 10_000],
    ['broccoli', 5_000, 10_000],
    ['cabbage', 20_000, 40_000],
    ['carrot', 20_000, 30_000],
    ['cucumber', 12_000, 26_000],
    ['eggplant', 16_000, 24_000],
    ['garlic', 2_000, 6_000],
    ['kale', 10_000, 18_000],
    ['leek', 28_000, 36_000],
  ] as const)('has the usual yields of %s', (key, low, high) => {
    const told = entry(key).yieldKgPerM2!
    expect(told[0] / 1.1208511e-4 / low).toBeCloseTo(1, 6)
    expect(told[1] / 1.1208511e-4 / high).toBeCloseTo(1, 6)
    expect(told[2]).toMatch(/New England Vegetable Guide/)
  })

  // UConn IPM (C): eggplant Verticillium 4, blackleg 3–4, lettuce drop 3.
  it('has the years before a family may return', () => {
    expect([entry('eggplant'), entry('cabbage'), entry('lettuce')].map(({ returnYears }) => returnYears![0])).toEqual([
      4, 4, 3,
    ])
    // Family defaults (M): nightshades 4, brassicas 4, cucurbits 3, alliums 4, legumes 3.
    const of = (family: string) => returnYears({ family, return_years: null, return_source: null })?.[0]
    expect(['Solanaceae', 'Cruciferae', 'cucurbitaceae', 'Alliaceae', 'Leguminosae', 'Poaceae'].map(of)).toEqual([
      4,
      4,
      3,
      4,
      3,
      undefined,
    ])
    expect(returnYears({ family: 'Poaceae', return_years: 2, return_source: 'own' })).toEqual([2, 'own'])
  })

  it('knows families by their other names', () => {
    expect(['Umbelliferae', ' apiaceae', 'APIACEAE'].map(familyNamed)).toEqual(['Apiaceae', 'Apiaceae', 'Apiaceae'])
    expect(familyNamed('Gramineae')).toBe('Poaceae')
  })

  it('goes into an archive and comes back with every source, and leaves the columns of the format as they were', () => {
    const records = CATALOGUE.map((one) => cropOf(one, one.key))
    const { content, faults } = readArchive(
      archiveOf({
        'farm.json': { format: 'selion-farm', version: 1, name: 'Invented' },
        'crops.csv': writeTable(crops, records),
      }),
    )
    expect(faults).toEqual([])
    expect(content!.records.get('crops')).toEqual(records)
    const bare = { ...cropOf(entry('leek'), 'leek') } as Record<string, unknown>
    for (const name of Object.keys(crops.fields).slice(7)) bare[name] = null
    expect(writeTable(crops, [bare as never]).split('\r\n')[0]).toBe(
      'id,name,family,climbs,juglone,juglone_source,return_years',
    )
  })

  it('names a range of yields that is upside down', () => {
    const { faults } = readArchive(
      archiveOf({
        'farm.json': { format: 'selion-farm', version: 1, name: 'Invented' },
        'crops.csv': 'id,name,family,yield_low_kg_per_m2,yield_high_kg_per_m2\nx,X,Xaceae,3,2\n',
      }),
    )
    expect(faults).toMatchObject([{ file: 'crops.csv', field: 'yield_high_kg_per_m2' }])
  })
})
