import type { Answer } from '../../../src/desk/door.ts'
import { BEDS, box, seeded } from './inventedFarm.ts'

type Yielded = Answer<'yield'>
type Cell = Yielded['cells'][number]
type Stretch = Yielded['stretches'][number]

/** Yield figures of the invented farm: about par everywhere but at the first field's east end. */
export function fakeYield(season: number, smoothM: number): Answer<'yield'> {
  const random = seeded(season)
  const cells: Cell[] = []
  const stretches: Stretch[] = []
  BEDS.forEach((bed, k) => {
    const cold = (along: number) => k < 7 && along > bed.lengthM - 10 + k
    for (let along = 0; along < bed.lengthM; along += 1) {
      const to = Math.min(along + 1, bed.lengthM)
      const index = (cold(along) ? 0.45 : 1.05) + (random() - 0.5) * 0.4
      const areaM2 = (to - along) * bed.widthM
      cells.push({
        type: 'Feature',
        geometry: box(bed, along, to, -0.6, 0.6),
        properties: { bed: bed.id, areaM2, kgPerM2: 2.1 * index, kg: 2.1 * index * areaM2, index },
      })
    }
    for (let along = 0; along < bed.lengthM; along += 4) {
      const z = cold(along + 2) ? -3.2 : (random() - 0.5) * 3
      const standing = { z, p: 0.01, q: cold(along + 2) ? 0.01 : 0.6 }
      stretches.push({
        type: 'Feature',
        geometry: box(bed, along, Math.min(along + 4, bed.lengthM), -0.6, 0.6),
        properties: { bed: bed.id, index: 1, standing },
      })
    }
  })
  const first = BEDS[0]!
  return {
    season,
    cellM: 1,
    smoothM,
    stretchM: 4,
    bandM: 6,
    patches: null,
    alpha: 0.05,
    totalKg: 1214,
    areaM2: 1800,
    kgPerM2: 1.98,
    bedsPicked: 50,
    cells,
    stretches,
    beds: BEDS.map((bed) => ({
      id: bed.id,
      kg: 20 + 10 * random(),
      kgPerM2: 1.6 + random(),
      kgPerRowM: 2,
      index: 0.6 + 0.8 * random(),
      standing: null,
    })),
    zones: [
      {
        id: 'z1',
        areaM2: 61,
        index: 0.58,
        shortfallKg: 38,
        beds: BEDS.slice(0, 7).map(({ id }) => id),
        tree: { id: 't1', species: 'black walnut', name: null, trunkM: 4.2, canopyM: -2 },
        fieldEdgeM: 1.9,
        supports: [{ system: 'string weave', name: 'string weave', lengthM: 31 }],
        dressings: [],
        outline: box(first, first.lengthM - 11, first.lengthM + 0.5, -1.2, 12),
      },
    ],
    tooLittle: null,
    notes: ['These figures are invented.'],
  }
}
