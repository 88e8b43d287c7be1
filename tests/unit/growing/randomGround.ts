import type { Ground, GroundBed, GroundRow, GroundSupport } from '../../../geo/growing/ground.ts'
import { walnutSource } from '../../../geo/growing/walnutSource.ts'
import type { Crop } from '../../../geo/model/crops.ts'
import type { Dressing } from '../../../geo/model/dressings.ts'
import type { Planting } from '../../../geo/model/plantings.ts'
import type { Tree } from '../../../geo/model/trees.ts'
import { boxOf } from '../../../geo/plane/box.ts'
import type { Metres } from '../../../geo/plane/lonLat.ts'
import { seededRandom } from '../../../geo/yield/seededRandom.ts'

/** A row as it was laid out: where it begins along its bed, in whole centimetres, and which way it is drawn. */
export interface LaidRow {
  readonly id: string
  readonly bed: string
  readonly startCm: number
  readonly lengthCm: number
  readonly back: boolean
}

export interface RandomGround {
  readonly ground: Ground
  readonly rows: readonly LaidRow[]
  readonly bedCm: ReadonlyMap<string, number>
}

const day = (n: number) => new Date(Date.UTC(2022, 0, 1 + n)).toISOString().slice(0, 10)
export const DAYS = 1700

const crop = (id: string, family: string, more: Partial<Crop>): Crop => ({
  id,
  name: id,
  family,
  climbs: null,
  juglone: null,
  juglone_source: null,
  return_years: null,
  climbs_source: null,
  juglone_sure: null,
  return_source: null,
  usual_spacing_m: null,
  spacing_source: null,
  yield_low_kg_per_m2: null,
  yield_high_kg_per_m2: null,
  yield_source: null,
  touches_soil: null,
  touches_soil_source: null,
  first_pick_days: null,
  first_pick_source: null,
  stands_years: null,
  stands_source: null,
  support_after_days: null,
  extra: {},
  ...more,
})

/** Of two families by three spellings, and some with nothing known of them. */
const CROPS: readonly Crop[] = [
  crop('tomato', 'Solanaceae', {
    climbs: true,
    juglone: 'sensitive',
    usual_spacing_m: 0.45,
    touches_soil: false,
    first_pick_days: 65,
  }),
  crop('potato', 'solanaceae ', {
    juglone: 'sensitive',
    return_years: 2,
    usual_spacing_m: 0.25,
    touches_soil: true,
    first_pick_days: 70,
  }),
  crop('pea', 'Leguminosae', { climbs: true, juglone: 'unknown', usual_spacing_m: 0.05, first_pick_days: 60 }),
  crop('clover', 'Fabaceae', { return_years: 1, yield_low_kg_per_m2: 0, yield_high_kg_per_m2: 0 }),
  crop('odd', 'Oddaceae', { juglone: 'tolerant' }),
]

/** Two beds lying askew, with rows drawn either way, and seasons of plantings in them told in every way; from a seed. */
export function randomGround(seed: number): RandomGround {
  const random = seededRandom(seed)
  const whole = (low: number, high: number) => low + Math.floor(random() * (high - low + 1))
  const pick = <T>(some: readonly T[]): T => some[whole(0, some.length - 1)]!
  const maybe = <T>(value: T): T | null => (random() < 0.5 ? value : null)
  const turn = random() * 2 * Math.PI
  const at = (bedNumber: number, alongCm: number, acrossCm: number): Metres => {
    const [x, y] = [alongCm / 100, acrossCm / 100 + 4 * bedNumber]
    return [50 + x * Math.cos(turn) - y * Math.sin(turn), -20 + x * Math.sin(turn) + y * Math.cos(turn)]
  }
  const beds: GroundBed[] = []
  const rows: GroundRow[] = []
  const laid: LaidRow[] = []
  const bedCm = new Map<string, number>()
  const supports: GroundSupport[] = []
  const plantings: Planting[] = []
  const manure: Dressing[] = []
  const picked = new Map<string, string[]>()
  for (const number of [0, 1]) {
    const bed = `bed ${number}`
    const lengthCm = 5 * whole(80, 140)
    bedCm.set(bed, lengthCm)
    beds.push({ id: bed, field: 'field', name: bed, middle: [at(number, 0, 0), at(number, lengthCm, 0)] })
    for (const across of [-40, 0, 40]) {
      const row = {
        id: `${bed} ${across}`,
        bed,
        startCm: 5 * whole(2, 8),
        lengthCm: lengthCm - 100,
        back: random() < 0.5,
      }
      const ends = [at(number, row.startCm, across), at(number, row.startCm + row.lengthCm, across)]
      laid.push(row)
      rows.push({ id: row.id, bed, name: null, side: null, line: row.back ? ends.reverse() : ends })
      const from = whole(0, row.lengthCm)
      const up = whole(0, DAYS)
      if (random() < 0.7) {
        const ends = [
          at(number, from, across + whole(-50, 50)),
          at(number, from + whole(0, 400), across + whole(-80, 80)),
        ]
        supports.push({
          id: `support ${row.id}`,
          put_up: maybe(day(up)),
          taken_down: maybe(day(up + whole(0, 500))),
          line: ends,
          box: boxOf(ends),
        })
      }
    }
    for (let i = 0; i < whole(1, 2); i++)
      manure.push({
        id: `${bed} ${i}`,
        on: day(whole(0, DAYS)),
        bed,
        material: 'manure',
        kg_per_m2: null,
        raw_manure: true,
        note: null,
        photo: null,
        extra: {},
      })
    for (let i = 0; i < 12; i++) {
      const id = `${bed} p${i}`
      const row = random() < 0.85 ? pick(laid.filter((one) => one.bed === bed)) : null
      const endCm = row?.lengthCm ?? lengthCm
      const fromCm = 5 * whole(0, endCm / 5 - 4)
      const setOut = whole(0, DAYS - 400)
      const cleared = random() < 0.9 ? setOut + whole(0, 260) : null
      const told = random() < 0.8
      plantings.push({
        id,
        row: row?.id ?? null,
        bed: row ? null : bed,
        variety: `v ${pick(CROPS).id}`,
        from_m: told ? fromCm / 100 : null,
        to_m: told ? (fromCm + 5 * whole(1, (endCm - fromCm) / 5)) / 100 : null,
        set_out: day(setOut),
        cleared: cleared === null ? null : day(cleared),
        plants: maybe(whole(1, 40)),
        spacing_m: maybe(whole(5, 60) / 100),
        purpose: null,
        note: null,
        extra: {},
      })
      if (cleared !== null && cleared > setOut && random() < 0.4)
        picked.set(id, [whole(setOut, cleared), whole(setOut, cleared)].sort((a, b) => a - b).map(day))
    }
  }
  const tree = (id: string): Tree => {
    const planted = whole(-5000, 900)
    return {
      id,
      species: pick(['Juglans nigra', 'Juglans nigra', 'Juglans regia']),
      name: null,
      planted: maybe(day(planted)),
      removed: random() < 0.3 ? day(whole(600, DAYS)) : null,
      height_m: maybe(whole(1, 18)),
      canopy_radius_m: maybe(whole(1, 60) / 10),
      measured: maybe(day(whole(-1000, 800))),
      rootstock: null,
      juglone: 'source',
      geom: { type: 'Point', coordinates: [0, 0] },
      extra: {},
    }
  }
  const sources = ['a', 'b'].map((id) => walnutSource(tree(id), at(0, whole(-700, 1200), whole(-500, 900))))
  const byId = <T extends { id: string }>(some: readonly T[]) => new Map(some.map((one) => [one.id, one]))
  const varieties = CROPS.map(({ id }) => ({ id: `v ${id}`, crop: id, name: id, note: null, extra: {} }))
  return {
    rows: laid,
    bedCm,
    ground: {
      seasonStartMonth: pick([1, 3, 11]),
      beds: byId(beds),
      rows: byId(rows),
      crops: byId(CROPS),
      varieties: byId(varieties),
      plantings,
      sources,
      supports,
      manure,
      picked,
    },
  }
}
