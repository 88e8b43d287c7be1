import type { Metres } from '../../../geo/plane/lonLat.ts'
import type { PlotGround } from '../../../geo/yield/near/factors.ts'
import type { Around } from '../../../geo/yield/near/readAround.ts'
import type { Plot } from '../../../geo/yield/plots/plots.ts'
import { seededRandom } from '../../../geo/yield/seededRandom.ts'
import type { YieldInput } from '../../../geo/yield/yieldInput.ts'
import { bedWithRows, planting, season } from './farms.ts'
import { rectangle } from './shapes.ts'

/** An invented field: 48 beds of 30 m × 1.2 m with paths of 0.5 m, planted in stretches with four crops. */
export const FIELD = { beds: 48, lengthM: 30, widthM: 1.2, pitchM: 1.7 } as const

/** How it is made. */
export interface Planted {
  /** Share of the yield that is missing on the planted ground; 0 plants nothing. */
  readonly shortfall: number
  /** Share of all beds' ground that the planted disc takes. */
  readonly share: number
  /** Length of the stretches that picks are told of. */
  readonly stretchM: number
  /** Standard deviation of a stretch's yield over its mean, by chance alone. */
  readonly noise: number
}

export interface PlantedField {
  readonly input: YieldInput
  /** The planted ground: beds within so much of a place. */
  readonly disc: { readonly x: number; readonly y: number; readonly radiusM: number }
  readonly around: Around
  /** Id of the factor that lies where yield is missing. */
  readonly cause: string
  readonly groundOf: (plots: readonly Plot[]) => PlotGround[]
}

const CROPS = ['tomato', 'bean', 'kale', 'beet'] as const
const FAMILIES = ['Solanaceae', 'Fabaceae', 'Brassicaceae', 'Amaranthaceae'] as const
const KG_PER_M = [4, 1.2, 2, 2.6] as const
const CAUSES = ['walnut', 'canopy', 'seen: animal damage', 'seen: wet spot'] as const

/** A field of the seed: what grows where, what each stretch gave, and things about it of which one is the cause. */
export function plantedField(seed: number, { shortfall, share, stretchM, noise }: Planted): PlantedField {
  const random = seededRandom(seed)
  const normal = (): number => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random())
  const across = FIELD.beds * FIELD.pitchM
  const radiusM = Math.sqrt((share * FIELD.lengthM * across) / Math.PI)
  const place = (inset: number): Metres => [
    inset + (FIELD.lengthM - 2 * inset) * random(),
    inset + (across - 2 * inset) * random(),
  ]
  const [x, y] = place(radiusM)
  const laidOut = Array.from({ length: FIELD.beds }, (_, b) =>
    bedWithRows(`b${b}`, rectangle(0, FIELD.pitchM * b, FIELD.lengthM, FIELD.widthM), 1),
  )
  const count = Math.round(FIELD.lengthM / stretchM)
  const cells = laidOut.flatMap((_, b) =>
    Array.from({ length: count }, (_, s) => {
      const [fromM, toM] = [(FIELD.lengthM * s) / count, (FIELD.lengthM * (s + 1)) / count]
      const middle = FIELD.pitchM * b + FIELD.widthM / 2
      const half = Math.sqrt(Math.max(0, radiusM ** 2 - (middle - y) ** 2))
      const inside = Math.max(0, Math.min(toM, x + half) - Math.max(fromM, x - half)) / (toM - fromM)
      const crop = Math.floor(random() * CROPS.length)
      const kg = KG_PER_M[crop]! * (toM - fromM) * (1 - shortfall * inside) * Math.max(0, 1 + noise * normal())
      return { id: `p${b}-${s}`, b, crop, fromM, toM, kg, held: random() < 0.4 }
    }),
  )
  const input = season({
    beds: laidOut.map(({ bed }) => bed),
    rows: laidOut.flatMap(({ rows }) => rows),
    plantings: cells.map(({ id, b, crop, fromM, toM }) =>
      planting(id, `b${b}`, CROPS[crop]!, { row: `b${b}-0`, fromM, toM }),
    ),
    picks: { plantings: cells.map(({ id, kg }) => ({ planting: id, kg })) },
  })
  const cause = CAUSES[Math.floor(random() * CAUSES.length)]!
  const spotsOf = (kind: string): { at: Metres; kind: string; on: string }[] => {
    const isCause = cause === `seen: ${kind}`
    return Array.from({ length: 3 }, () => {
      const [turn, out] = [2 * Math.PI * random(), (radiusM / 2) * Math.sqrt(random())]
      const at: Metres = isCause ? [x + out * Math.cos(turn), y + out * Math.sin(turn)] : place(0)
      return { at, kind, on: '2025-07-01' }
    })
  }
  const tree = (juglone: boolean, id: string) => {
    const at = cause === id ? ([x, y] as const) : place(0)
    return { at, canopyM: cause === id ? radiusM : 3 + 3 * random(), heightM: 8, juglone }
  }
  const beds = laidOut.map(({ bed }) => bed.id)
  const around: Around = {
    fieldEdges: [
      [
        [-2, -2],
        [FIELD.lengthM + 2, -2],
        [FIELD.lengthM + 2, across + 2],
        [-2, across + 2],
        [-2, -2],
      ],
    ],
    fences: [
      [
        [-3, -2],
        [-3, across + 2],
      ],
    ],
    trees: [tree(true, 'walnut'), tree(false, 'canopy')],
    supports: [],
    dressings: ['compost', 'mulch'].flatMap((material) =>
      beds.filter(() => random() < 0.5).map((bed) => ({ bed, material })),
    ),
    seen: ['animal damage', 'wet spot', 'disease'].flatMap(spotsOf),
    history: beds.map((bed) => ({
      bed,
      family: FAMILIES[Math.floor(random() * FAMILIES.length)]!,
      setOut: '2024-05-01',
      cleared: '2024-10-01',
    })),
  }
  const byId = new Map(cells.map((cell) => [cell.id, cell]))
  const groundOf = (plots: readonly Plot[]): PlotGround[] =>
    plots.map((plot) => {
      const { b, crop, held } = byId.get(plot.plantings[0]!)!
      const named = { crop: CROPS[crop]!, cropName: CROPS[crop]!, family: FAMILIES[crop]!, climbs: crop < 2 }
      const system = crop < 2 && held ? 'net' : null
      const facts = {
        id: plot.plantings[0]!,
        ...named,
        variety: 'v',
        varietyName: 'V',
        plants: null,
        system,
        systemName: system,
      }
      return { plot, bed: `b${b}`, setOut: '2025-05-01', facts }
    })
  return { input, disc: { x, y, radiusM }, around, cause, groundOf }
}
