import type { Feature, Geometry, Polygon } from 'geojson'
import type { CanopyProps } from '../../../geo/layers/layer.ts'
import type { Answer } from '../../../src/desk/door.ts'
import { BEDS, box, FIELDS, inBed, plane, seeded } from './inventedFarm.ts'

const CROPS = [
  ['tomato', 'Solanaceae', true],
  ['pole bean', 'Fabaceae', true],
  ['cucumber', 'Cucurbitaceae', true],
  ['leek', 'Alliaceae', false],
  ['chard', 'Amaranthaceae', false],
] as const

const TREES = [
  { id: 't1', species: 'black walnut', at: [-20, 34], radius: 6.2, height: 11, source: true },
  { id: 't2', species: 'Persian walnut', at: [-14, 58], radius: 3.4, height: 6, source: true },
  { id: 't3', species: 'hazel', at: [52, 10], radius: 2.4, height: 4, source: false },
] as const

const feature = <P>(geometry: Geometry, properties: P): Feature<Geometry, P> => ({
  type: 'Feature',
  geometry,
  properties,
})
const all = <P>(features: Feature<Geometry, P>[]) => ({ type: 'FeatureCollection' as const, features })

const disc = ([x, y]: readonly [number, number], r: number): Polygon => ({
  type: 'Polygon',
  coordinates: [
    Array.from({ length: 49 }, (_, k) => {
      const a = (k % 48) * (Math.PI / 24)
      return [...plane.toLonLat([x + r * Math.cos(a), y + r * Math.sin(a)])]
    }),
  ],
})

export const summer = (on: string) => on.slice(5) >= '05-15' && on.slice(5) <= '10-20'

export function cropOf(k: number) {
  const [name, family, climbs] = CROPS[k % CROPS.length]!
  return { name, family, climbs }
}

/** Every layer of the invented farm on a day. */
export function fakeLayers(on: string): Answer<'seeLayers'> {
  const random = seeded(7)
  const line = (bed: (typeof BEDS)[number], from: number, to: number, right: number) => ({
    type: 'LineString' as const,
    coordinates: [[...inBed(bed, from, right)], [...inBed(bed, to, right)]],
  })
  const stretches = BEDS.flatMap((bed, k) => {
    if (!summer(on)) return []
    const { name, family, climbs } = cropOf(k)
    const heldTo = climbs ? bed.lengthM * (random() < 0.7 ? 1 : 0.55) : 0
    const pieces: readonly (readonly [number, number, boolean])[] = climbs
      ? [
          [0.3, heldTo, true],
          [heldTo, bed.lengthM - 0.3, false],
        ]
      : [[0.3, bed.lengthM - 0.3, false]]
    return pieces
      .filter(([from, to]) => to - from > 0.1)
      .map(([from, to, held], n) =>
        feature(line(bed, from, to, 0), {
          id: `p-${bed.id}`,
          n,
          crop: name,
          crop_name: name,
          variety_name: `${name} no. ${(k % 3) + 1}`,
          family,
          climbs,
          held,
          length_m: to - from,
        }),
      )
  })
  const supports = BEDS.flatMap((bed, k) => {
    const { climbs } = cropOf(k)
    const permanent = k % 10 === 1
    if (!(climbs && (permanent || summer(on)))) return []
    const held = stretches.find(({ properties }) => properties.id === `p-${bed.id}` && properties.held)
    const length = held?.properties.length_m ?? bed.lengthM - 0.6
    return [
      feature(line(bed, 0.3, 0.3 + length, 0.1), {
        id: `s-${bed.id}`,
        system: permanent ? 'post and wire' : 'string weave',
        system_name: permanent ? 'post and wire' : 'string weave',
        permanent,
        put_up: permanent ? '2024-04-02' : `${on.slice(0, 4)}-05-14`,
        length_m: length,
      }),
    ]
  })
  return {
    fields: all(FIELDS.map(({ id, name, shape }) => feature(shape, { id, name, area_m2: 0 }))),
    beds: all(
      BEDS.map((bed) =>
        feature(box(bed, 0, bed.lengthM, -0.6, 0.6), {
          id: bed.id,
          name: bed.name,
          field: bed.field,
          area_m2: bed.lengthM * bed.widthM,
          standing: true,
        }),
      ),
    ),
    rows: all(
      BEDS.map((bed) =>
        feature(line(bed, 0, bed.lengthM, 0), {
          id: `r-${bed.id}`,
          bed: bed.id,
          name: `${bed.name} middle`,
          side: 'middle',
          length_m: bed.lengthM,
        }),
      ),
    ),
    trees: all(
      TREES.map(({ id, species, at, radius, height, source }) =>
        feature(
          { type: 'Point', coordinates: [...plane.toLonLat(at)] },
          { id, species, name: null, height_m: height, canopy_radius_m: radius, source },
        ),
      ),
    ),
    canopies: all(
      TREES.flatMap(({ id, at, radius, source }): Feature<Geometry, CanopyProps>[] => [
        feature(disc(at, radius), { id, ring: 'canopy' as const, source, radius_m: radius, assumed: !source }),
        ...(source
          ? [
              feature(disc(at, radius * 2), {
                id,
                ring: 'reach' as const,
                source,
                radius_m: radius * 2,
                assumed: false,
              }),
            ]
          : []),
      ]),
    ),
    supports: all(supports),
    structures: all([
      feature(
        {
          type: 'LineString',
          coordinates: [
            [-75, -45],
            [70, -38],
          ].map(([x, y]) => [...plane.toLonLat([x!, y!])]),
        },
        { id: 'fence', kind: 'fence', name: null },
      ),
    ]),
    observations: all([
      feature(
        { type: 'Point', coordinates: [...plane.toLonLat([-40, 12])] },
        { id: 'o1', on: '2026-07-02', kind: 'deer', severity: 2 },
      ),
    ]),
    stretches: all(stretches),
  }
}
