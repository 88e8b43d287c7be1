import { describe, expect, it } from 'vitest'
import type { LonLat } from '../../../geo/plane/lonLat.ts'
import { planeAbout } from '../../../geo/plane/plane.ts'
import { readPlanFile } from '../../../geo/siting/planFile.ts'
import { rayTo } from '../../../geo/sun/isShaded.ts'
import type { SitingPlan } from '../../../src/desk/siting/sitingDoor.ts'
import { familySpans } from '../../../src/sheets/siting/familySpans.ts'
import { growingMonths } from '../../../src/sheets/siting/growingMonths.ts'
import { monthsBetween } from '../../../src/sheets/siting/monthsBetween.ts'
import {
  draftOf,
  firstGuess,
  type NeedDraft,
  planOf,
  usualWeights,
  wished,
  wishOf,
} from '../../../src/sheets/siting/needDraft.ts'
import { rowPieces } from '../../../src/sheets/siting/rowPieces.ts'
import { rowsCsv } from '../../../src/sheets/siting/rowsCsv.ts'
import { shadowPieces } from '../../../src/sheets/siting/shadowPieces.ts'
import { bestPair, stakesOf } from '../../../src/sheets/siting/stakeOut.ts'

const ORIGIN: LonLat = [15.3, 46.8]
const plane = planeAbout(ORIGIN)

const DRAFT: NeedDraft = {
  from: '2027',
  years: '6',
  families: [{ name: 'Solanaceae', metres: '60', returns: '4' }],
  system: 'wires',
  instead: 'net',
  budget: '',
  labour: '15',
  wind: '270',
  weights: usualWeights(),
  fix: [],
  forbid: [],
  prefer: [],
}

describe('the need', () => {
  it('begins with the least of the last three seasons in which a family climbed', () => {
    const told = [
      {
        family: 'Fabaceae',
        seasons: [
          { season: 2026, metres: 30 },
          { season: 2024, metres: 12 },
          { season: 2020, metres: 900 },
        ],
        returnYears: [3, 'source'] as const,
      },
      { family: 'Solanaceae', seasons: [{ season: 2025, metres: 60 }], returnYears: null },
    ]
    // 2024–2026: the lesser of 30 and 12, and 60 metres; 2020 lies too far back.
    expect(firstGuess(told, 2027, 'metric')).toEqual([
      { name: 'Fabaceae', metres: '12', returns: '3' },
      { name: 'Solanaceae', metres: '60', returns: '3' },
    ])
    expect(firstGuess(told, 2027, 'us')[1]!.metres).toBe('197')
  })

  it('is a plan file that can be read, in metres whatever it was typed in', () => {
    const read = planOf(DRAFT, 'us')
    if (!('plan' in read)) throw new Error('not read')
    const file = readPlanFile(read.plan)
    expect(file).toMatchObject({ asked: { years: 6, budget: null, wind_from_deg: 270 } })
    expect('asked' in file && file.asked.need.Solanaceae).toBeCloseTo(60 * 0.3048, 9)
  })

  it('comes back from a kept plan as it was typed', () => {
    for (const units of ['us', 'metric'] as const) {
      const typed = wished(wished(DRAFT, { bed: 'b', side: 'left' }, 'fix'), { bed: 'c', side: 'right' }, 'prefer')
      const read = planOf(typed, units)
      const file = readPlanFile('plan' in read && read.plan)
      expect('asked' in file && draftOf(file.asked, units)).toEqual(typed)
    }
  })

  it('tells what is wrong by field', () => {
    const wrong = {
      ...DRAFT,
      years: '99',
      system: '',
      budget: 'lots',
      families: [{ name: 'Solanaceae', metres: '', returns: '1,5' }],
    }
    const read = planOf(wrong, 'metric')
    expect('faults' in read && Object.keys(read.faults).sort()).toEqual([
      'budget',
      'need.Solanaceae',
      'return_years.Solanaceae',
      'system',
      'years',
    ])
  })

  it('holds one wish a row, and one fixed row a bed', () => {
    const [left, right] = [
      { bed: 'b', side: 'left' },
      { bed: 'b', side: 'right' },
    ] as const
    const one = wished(wished(DRAFT, left, 'fix'), right, 'fix')
    expect([wishOf(one, left), wishOf(one, right)]).toEqual([null, 'fix'])
    expect(wishOf(wished(one, right, 'forbid'), right)).toBe('forbid')
    expect(wished(one, right, null)).toEqual(DRAFT)
  })
})

describe('what the sheet tells of time', () => {
  it('cuts a span into months', () => {
    expect(monthsBetween('2026-04-15', '2026-06-02')).toEqual([
      { from: '2026-04-15', to: '2026-04-30' },
      { from: '2026-05-01', to: '2026-05-31' },
      { from: '2026-06-01', to: '2026-06-02' },
    ])
    expect(monthsBetween('2027-12-31', '2028-01-01')).toHaveLength(2)
  })

  it('guesses the growing half of the year by hemisphere', () => {
    expect(growingMonths('2026-02-01', 46)).toEqual({ from: '2026-04-01', to: '2026-09-30' })
    expect(growingMonths('2026-02-01', -33)).toEqual({ from: '2025-10-01', to: '2026-03-31' })
  })

  it('joins years in which the same family climbs', () => {
    const years = { 2029: 'Fabaceae', 2027: 'Solanaceae', 2028: 'Fabaceae', 2031: 'Fabaceae' }
    expect(familySpans(years)).toEqual(['Solanaceae 2027', 'Fabaceae 2028–2029', 'Fabaceae 2031'])
  })
})

describe('shadows on the map', () => {
  it('lie as long as a wall is high at 45°, away from the sun', () => {
    const wall = { shape: 'wall', from: [0, 0], to: [10, 0], heightM: 2 } as const
    const told = { supports: [wall], trees: [], structures: [], assumedSupports: 0, assumedTrees: 0, withoutHeight: [] }
    const [piece] = shadowPieces(told, rayTo({ altitudeDeg: 45, azimuthDeg: 180 })!, plane)
    if (piece?.geometry.type !== 'Polygon') throw new Error('no area')
    const corners = piece.geometry.coordinates[0]!.map((at) =>
      plane.toMetres([at[0]!, at[1]!]).map((v) => Math.round(v * 100) / 100 + 0),
    )
    // Hand-worked: the sun due south at 45°, so 2 m high throws 2 m to the north.
    expect(corners).toEqual([
      [0, 0],
      [10, 0],
      [10, 2],
      [0, 2],
      [0, 0],
    ])
  })
})

describe('staking out', () => {
  const at = (x: number, y: number) => plane.toLonLat([x, y])
  const points = [
    { name: 'pole', at: at(0, 0) },
    { name: 'oak', at: at(30, 0) },
    { name: 'far corner', at: at(15, -400) },
  ]

  it('tapes from the pair that meets at a good angle, at hand', () => {
    expect(bestPair(points, [at(10, 20), at(20, 20)], plane)?.map(({ name }) => name)).toEqual(['pole', 'oak'])
    // In one line with pole and oak their tapes would not meet: the far corner places them.
    expect(bestPair(points, [at(40, 0.5), at(50, 0.5)], plane)?.map(({ name }) => name)).toContain('far corner')
    expect(bestPair(points.slice(1, 2), [at(1, 1)], plane)).toBeNull()
  })

  it('tells both tapes to both ends', () => {
    // Hand-worked right triangles: 3-4-5 from the pole, 20-21-29 from the oak.
    const line = [at(3, 4), at(10, 21)] as const
    const stakes = stakesOf([{ name: 'B1', line }], [points[0]!, points[1]!], plane)
    expect(stakes[0]!.fromA).toBeCloseTo(5, 6)
    expect(stakes[1]!.fromB).toBeCloseTo(29, 6)
    // The run lies 22° east of north (by hand, 7 to 17), nearer to north than to north-east; both ends are left of pole to oak.
    expect(stakes.map(({ end, side }) => [end, side])).toEqual([
      ['south', 'left'],
      ['north', 'left'],
    ])
    expect(stakesOf([{ name: 'B1', line: [at(3, -4), at(10, -4)] }], [points[0]!, points[1]!], plane)[0]).toMatchObject(
      {
        end: 'west',
        side: 'right',
      },
    )
  })
})

describe('a plan’s rows', () => {
  // By hand: a row at the left from 2028 on, climbed from then; before it, and in another bed, supports of one season.
  const climbs = { 2028: 'Fabaceae', 2029: 'Solanaceae' }
  const plan: Pick<SitingPlan, 'rows' | 'one_season'> = {
    rows: [{ bed: 'a', side: 'left', length_m: 20, built: 2028, stands: false, years: climbs }],
    one_season: [
      { bed: 'a', years: { 2027: 'Solanaceae' } },
      { bed: 'b', years: { 2027: 'Fabaceae', 2029: 'Fabaceae' } },
    ],
  }
  const sides = { left: 1, middle: 2, right: 3 }
  const on = (year: number) =>
    rowPieces(plan, year, ['a', 'b'], (bed, side) => [
      [bed === 'a' ? 0 : 10, sides[side]],
      [1, 1],
    ]).map(({ geometry, properties }) => [
      geometry.type === 'LineString' && geometry.coordinates[0]!.join(' '),
      properties.as,
      properties.words,
    ])

  it('are shown in a year with what climbs them then, those to come with their year', () => {
    expect(on(2027)).toEqual([
      ['0 2', 'season', 'Solanaceae'],
      ['0 1', 'later', '2028'],
      ['10 1', 'candidate', undefined],
      ['10 3', 'candidate', undefined],
      ['10 2', 'season', 'Fabaceae'],
    ])
    expect(on(2028)).toEqual([
      ['0 1', 'chosen', 'Fabaceae'],
      ...[1, 2, 3].map((side) => [`10 ${side}`, 'candidate', undefined]),
    ])
    expect(on(2030)[0]).toEqual(['0 1', 'chosen', 'nothing'])
  })

  it('are a line of CSV for each year that something climbs, those of one season too', () => {
    const csv = rowsCsv(plan, { bedName: (bed) => bed.toUpperCase(), sideWords: (_, side) => `${side} edge` })
    expect(csv.trim().split('\r\n')).toEqual([
      'support,bed,side,length_m,built,year,family',
      'permanent,A,left edge,20,2028,2028,Fabaceae',
      'permanent,A,left edge,20,2028,2029,Solanaceae',
      'one season,A,,,,2027,Solanaceae',
      'one season,B,,,,2027,Fabaceae',
      'one season,B,,,,2029,Fabaceae',
    ])
  })
})
