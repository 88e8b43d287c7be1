import type { Position } from 'geojson'
import type { LayerFeature, LayerName, LayerProps } from '../../../geo/layers/layer.ts'
import type { LonLat } from '../../../geo/plane/lonLat.ts'
import { type Plane, planeAbout } from '../../../geo/plane/plane.ts'
import type { Layers, Surface } from '../../../src/map/farmMap.ts'

/** An invented farm of some fields of beds for looking at the map; places are in metres from the origin. */
export interface InventedFarm {
  readonly plane: Plane
  readonly layers: Layers
  readonly surface: Surface
}

const turned =
  (plane: Plane, deg: number, [e0, n0]: readonly [number, number]) =>
  (e: number, n: number): Position => {
    const a = (deg * Math.PI) / 180
    return [...plane.toLonLat([e0 + e * Math.cos(a) - n * Math.sin(a), n0 + e * Math.sin(a) + n * Math.cos(a)])]
  }

const FIELDS = [
  { name: 'Weir Piece', at: [0, 0], deg: 12, beds: 16 },
  { name: 'Long Ham', at: [118, 34], deg: 11, beds: 13 },
  { name: 'Bridge Strip', at: [130, -42], deg: 12, beds: 9 },
] as const

const CROPS = ['tomato', 'pole bean', 'cucumber', 'leek'] as const

/** `bedsAtLeast`: further plain fields are laid out to the south until there are so many beds. */
export function inventedFarm(origin: LonLat, bedsAtLeast = 0): InventedFarm {
  const plane = planeAbout(origin)
  const all: { [L in LayerName]: LayerFeature<L>[] } = {
    fields: [],
    beds: [],
    rows: [],
    trees: [],
    canopies: [],
    supports: [],
    structures: [],
    observations: [],
    stretches: [],
  }
  const add = <L extends LayerName>(layer: L, properties: LayerProps[L], geometry: LayerFeature['geometry']) => {
    all[layer].push({ type: 'Feature', properties, geometry } as LayerFeature<L>)
  }
  const pieces: Surface['pieces'][number][] = []
  const values: number[] = []
  const layOut = (name: string, at: readonly [number, number], deg: number, beds: number) => {
    const place = turned(plane, deg, at)
    const deep = beds * 3 + 5
    const field = `field ${name}`
    add(
      'fields',
      { id: field, name, area_m2: 92 * deep },
      {
        type: 'Polygon',
        coordinates: [
          [place(0, -deep), place(98, -deep), place(96, -deep / 3), place(90, 0), place(0, 0), place(0, -deep)],
        ],
      },
    )
    for (let b = 0; b < beds; b++) {
      const top = -3 - b * 3
      const id = `${field} bed ${b + 1}`
      add(
        'beds',
        {
          id,
          name: `${name[0]}${b + 1}`,
          field,
          area_m2: 84 * 1.5,
          standing: !(name === 'Bridge Strip' && b === 8),
          stock: 0,
          dressed: null,
        },
        {
          type: 'Polygon',
          coordinates: [
            [place(3, top - 1.5), place(87, top - 1.5), place(87, top), place(3, top), place(3, top - 1.5)],
          ],
        },
      )
      for (const [side, off] of [
        ['north edge', -0.3],
        ['south edge', -1.2],
      ] as const) {
        const row = `${id} ${side}`
        add(
          'rows',
          { id: row, bed: id, name: null, side, length_m: 84 },
          { type: 'LineString', coordinates: [place(3, top + off), place(87, top + off)] },
        )
      }
      const crop = CROPS[b % 4]!
      const climbs = crop !== 'leek'
      for (const [n, [from, to, held]] of (climbs
        ? [[3, 55, true] as const, [55, 80, false] as const]
        : [[3, 70, false] as const]
      ).entries())
        add(
          'stretches',
          {
            id: `${id} planting`,
            n,
            crop,
            crop_name: crop,
            variety_name: crop,
            family: 'Solanaceae',
            set_out: '2026-05-01',
            climbs,
            held,
            length_m: to - from,
          },
          { type: 'LineString', coordinates: [place(from, top - 0.3), place(to, top - 0.3)] },
        )
      if (climbs)
        add(
          'supports',
          {
            id: `${id} run`,
            system: b % 3 === 0 ? 's1' : 's2',
            system_name: b % 3 === 0 ? 'trellis of wire' : 'string weave',
            permanent: b % 3 === 0,
            put_up: '2026-05-10',
            length_m: 52,
          },
          { type: 'LineString', coordinates: [place(3, top - 0.3), place(55, top - 0.3)] },
        )
      for (let c = 0; c < 21; c++) {
        const low = name === 'Weir Piece' && c > 15 && b < 8
        const value = c > 19 ? null : low ? 0.45 + 0.02 * ((b * 7 + c * 3) % 9) : 0.8 + 0.05 * ((b * 5 + c * 11) % 10)
        values.push(value ?? Number.NaN)
        pieces.push({
          type: 'Polygon',
          coordinates: [
            [
              place(3 + c * 4, top - 1.5),
              place(7 + c * 4, top - 1.5),
              place(7 + c * 4, top),
              place(3 + c * 4, top),
              place(3 + c * 4, top - 1.5),
            ],
          ],
        })
      }
    }
  }
  for (const { name, at, deg, beds } of FIELDS) layOut(name, at, deg, beds)
  for (let k = 0; all.beds.length < bedsAtLeast; k++)
    layOut(`Further ${k + 1}`, [(k % 8) * 110 - 300, -140 - Math.floor(k / 8) * 100], 0, 30)
  const tree = (
    id: string,
    species: string,
    e: number,
    n: number,
    radius: number,
    source: boolean,
    assumed: boolean,
  ) => {
    add(
      'trees',
      { id, species, name: null, height_m: radius * 1.4, canopy_radius_m: radius, source },
      { type: 'Point', coordinates: [...plane.toLonLat([e, n])] },
    )
    for (const [ring, r] of [['canopy', radius], ...(source ? [['reach', radius * 2] as const] : [])] as const) {
      const circle = Array.from({ length: 49 }, (_, i) =>
        plane.toLonLat([e + r * Math.cos((i * Math.PI) / 24), n + r * Math.sin((i * Math.PI) / 24)]),
      )
      add(
        'canopies',
        { id, ring, source, radius_m: r, assumed },
        { type: 'Polygon', coordinates: [circle.map((p) => [...p])] },
      )
    }
  }
  tree('walnut', 'black walnut', 103, 16, 8, true, false)
  tree('young walnut', 'walnut', 92, 42, 5, true, true)
  tree('hazel', 'hazel', 236, -18, 3.5, false, false)
  const line = (...at: (readonly [number, number])[]): Position[] => at.map((p) => [...plane.toLonLat(p)])
  add(
    'structures',
    { id: 'fence', kind: 'fence', name: null },
    { type: 'LineString', coordinates: line([-20, -75], [-20, 60], [250, 90]) },
  )
  add(
    'structures',
    { id: 'gate', kind: 'gate', name: 'Lane gate' },
    { type: 'LineString', coordinates: line([-20, -10], [-20, -6]) },
  )
  add(
    'structures',
    { id: 'path', kind: 'path', name: null },
    { type: 'LineString', coordinates: line([-20, -8], [100, 8], [116, 20]) },
  )
  add(
    'structures',
    { id: 'pipe', kind: 'water line', name: null },
    { type: 'LineString', coordinates: line([60, -80], [118, -56], [120, 34]) },
  )
  add(
    'structures',
    { id: 'shed', kind: 'shed', name: 'Tool shed' },
    { type: 'Polygon', coordinates: [line([20, 24], [32, 26], [31, 34], [19, 32], [20, 24])] },
  )
  add(
    'structures',
    { id: 'windbreak', kind: 'windbreak', name: null },
    { type: 'LineString', coordinates: line([-12, 45], [70, 62]) },
  )
  add(
    'structures',
    { id: 'pond', kind: 'water', name: 'Pond' },
    { type: 'Polygon', coordinates: [line([20, -78], [45, -84], [60, -74], [42, -66], [24, -68], [20, -78])] },
  )
  add('structures', { id: 'tap', kind: 'tap', name: 'Tap' }, { type: 'Point', coordinates: line([110, -20])[0]! })
  add(
    'observations',
    { id: 'seen', on: '2026-07-02', kind: 'broken string', severity: 3 },
    { type: 'Point', coordinates: line([150, 50])[0]! },
  )
  add(
    'observations',
    { id: 'seen 2', on: '2026-07-02', kind: 'blight', severity: 4 },
    { type: 'Point', coordinates: line([60, 0])[0]! },
  )
  const layers = Object.fromEntries(
    Object.entries(all).map(([name, features]) => [name, { type: 'FeatureCollection', features }]),
  ) as unknown as Layers
  return { plane, layers, surface: { ramp: { of: 'par' }, pieces, values } }
}
