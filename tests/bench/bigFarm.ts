import type { AnyRecord } from '../../geo/model/kind.ts'
import { planeAbout } from '../../geo/plane/plane.ts'
import { seededRandom } from '../../geo/yield/seededRandom.ts'

/** How big a farm to make. */
export interface Size {
  readonly beds: number
  readonly trees: number
  readonly picks: number
}

export const BIG: Size = { beds: 2000, trees: 500, picks: 50_000 }
export const ORIGIN = [15.4, 46.7] as const

const BEDS_A_FIELD = 50
const BED_M = { length: 24, width: 1, path: 0.5 }
const CROPS = [
  ['tomato', 'Solanaceae', true, 'sensitive'],
  ['pole bean', 'Fabaceae', true, 'tolerant'],
  ['cucumber', 'Cucurbitaceae', true, 'unknown'],
  ['leek', 'Amaryllidaceae', false, 'unknown'],
  ['carrot', 'Apiaceae', false, 'tolerant'],
  ['cabbage', 'Brassicaceae', false, 'sensitive'],
  ['beet', 'Amaranthaceae', false, 'tolerant'],
] as const

/** An invented farm of a given size in one season (2025), the same for the same seed, as records by kind in loading order. */
export function bigFarm(size: Size, seed: number): Map<string, AnyRecord[]> {
  const random = seededRandom(seed)
  const plane = planeAbout(ORIGIN)
  const at = (x: number, y: number) => [...plane.toLonLat([x, y])]
  const box = (x: number, y: number, w: number, h: number) => ({
    type: 'Polygon' as const,
    coordinates: [[at(x, y), at(x + w, y), at(x + w, y + h), at(x, y + h), at(x, y)]],
  })
  const line = (x: number, y: number, lengthM: number) => ({
    type: 'LineString' as const,
    coordinates: [at(x, y), at(x + lengthM, y)],
  })
  const records = new Map<string, AnyRecord[]>()
  const add = (kind: string, record: Record<string, unknown>) => {
    const list = records.get(kind) ?? []
    records.set(kind, list)
    list.push({ extra: {}, ...record } as AnyRecord)
  }
  for (const [name, family, climbs, juglone] of CROPS) {
    add('crops', { id: name, name, family, climbs, juglone })
    add('varieties', { id: `v-${name}`, crop: name, name: 'invented' })
  }
  add('systems', { id: 'net', name: 'Post, wire and net' })
  const fieldH = BEDS_A_FIELD * (BED_M.width + BED_M.path) + 4
  const fields = Math.ceil(size.beds / BEDS_A_FIELD)
  const across = Math.ceil(Math.sqrt(fields * 2))
  const cornerOf = (field: number) =>
    [(field % across) * (BED_M.length + 12), Math.floor(field / across) * (fieldH + 8)] as const
  for (let f = 0; f < fields; f++) {
    const [x, y] = cornerOf(f)
    add('fields', { id: `f${f}`, name: `Field ${f}`, geom: box(x, y, BED_M.length + 4, fieldH) })
  }
  const plantings: string[] = []
  for (let b = 0; b < size.beds; b++) {
    const [fx, fy] = cornerOf(Math.floor(b / BEDS_A_FIELD))
    const [x, y] = [fx + 2, fy + 2 + (b % BEDS_A_FIELD) * (BED_M.width + BED_M.path)]
    add('beds', {
      id: `b${b}`,
      field: `f${Math.floor(b / BEDS_A_FIELD)}`,
      name: `B${b}`,
      geom: box(x, y, BED_M.length, BED_M.width),
    })
    for (let r = 0; r < 2; r++) {
      const rowY = y + 0.25 + 0.5 * r
      add('rows', { id: `b${b}r${r}`, bed: `b${b}`, geom: line(x, rowY, BED_M.length) })
      for (let p = 0; p < 2; p++) {
        const crop = CROPS[Math.floor(random() * CROPS.length)]!
        const id = `p${plantings.length}`
        plantings.push(id)
        add('plantings', {
          id,
          row: `b${b}r${r}`,
          variety: `v-${crop[0]}`,
          from_m: 12 * p,
          to_m: 12 * p + 11.5,
          set_out: '2025-05-01',
          cleared: '2025-10-15',
        })
        if (crop[2] && random() < 0.6)
          add('supports', {
            id: `s${id}`,
            system: 'net',
            put_up: '2025-05-10',
            taken_down: '2025-10-20',
            geom: line(x + 12 * p, rowY + 0.05, 11.5),
          })
      }
    }
  }
  const [width, height] = [across * (BED_M.length + 12), Math.ceil(fields / across) * (fieldH + 8)]
  for (let t = 0; t < size.trees; t++)
    add('trees', {
      id: `t${t}`,
      species: random() < 0.3 ? 'Juglans nigra' : 'Corylus avellana',
      canopy_radius_m: 0.5 + 5 * random(),
      height_m: 1 + 12 * random(),
      measured: '2025-06-01',
      geom: { type: 'Point', coordinates: at(random() * width, random() * height) },
    })
  for (let k = 0; k < size.picks; k++)
    add('picks', {
      id: `k${k}`,
      on: `2025-${String(7 + (k % 3)).padStart(2, '0')}-${String(1 + (k % 28)).padStart(2, '0')}`,
      planting: plantings[Math.floor(random() * plantings.length)]!,
      quantity: Math.round(100 * (0.2 + 5 * random())) / 100,
      unit: 'kg',
      kg_per_unit: 1,
    })
  return records
}
