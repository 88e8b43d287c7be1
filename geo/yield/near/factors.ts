import type { Metres } from '../../plane/lonLat.ts'
import type { Caster } from '../../sun/caster.ts'
import { type SunHour, shadeHours } from '../../sun/shadeHours.ts'
import type { PlantingFacts } from '../plots/plantingFacts.ts'
import type { Plot } from '../plots/plots.ts'
import type { Factor } from './factor.ts'
import type { Around, Path } from './readAround.ts'

/** How far each is looked for, in metres: common practice, not from a source. */
export const REACH_M = { canopy: 6, walnut: 8, 'field edge': 5, fence: 5, seen: 6 } as const

/** Families in a bed are looked back on for so many years before a planting is set out. */
const BACK_YEARS = 2
/** A support that runs within this of a plot's middle is its own, and throws no shade that counts. */
const OWN_M = 0.6

const SHADE_M = 40

/** What is known of a plot besides its place. */
export interface PlotGround {
  readonly plot: Plot
  readonly bed: string
  readonly setOut: string
  readonly facts: PlantingFacts | null
}

/** What lies near the plots of one season, as factors; a thing that is nowhere on the farm is none. */
export function factorsOf(plots: readonly PlotGround[], around: Around, sun: readonly SunHour[]): Factor[] {
  const places = plots.map(({ plot }): Metres => [plot.x, plot.y])
  const near = (kind: keyof typeof REACH_M, name: string | null, distances: readonly number[]): Factor[] => {
    const reachM = REACH_M[kind]
    const values = distances.map((d) => Math.min(1, Math.max(0, 1 - d / reachM)))
    return values.some((v) => v > 0) ? [{ id: idOf(kind, name), kind, name, reachM, values, among: null }] : []
  }
  const is = (
    kind: Factor['kind'],
    name: string | null,
    values: readonly boolean[],
    among: readonly boolean[] | null,
  ) =>
    values.some(Boolean) ? [{ id: idOf(kind, name), kind, name, reachM: null, values: values.map(Number), among }] : []
  const canopies = (juglone: boolean): number[] => {
    const trees = around.trees.filter((tree) => tree.juglone === juglone)
    return places.map(([x, y]) => least(trees, ({ at, canopyM }) => Math.hypot(at[0] - x, at[1] - y) - canopyM))
  }
  const edges = (paths: readonly Path[]): number[] =>
    places.map((place) => least(paths, (path) => toPathM(place, path)))
  const kinds = [...new Set(around.seen.map(({ kind }) => kind))].sort()
  const materials = [...new Set(around.dressings.map(({ material }) => material))].sort()
  const systems = new Map(plots.flatMap(({ facts }) => (facts?.system ? [[facts.system, facts.systemName!]] : [])))
  const climbing = plots.map(({ facts }) => facts !== null && (facts.climbs || facts.system !== null))
  return [
    ...near('walnut', null, canopies(true)),
    ...near('canopy', null, canopies(false)),
    ...shade(places, around, sun),
    ...near('field edge', null, edges(around.fieldEdges)),
    ...near('fence', null, edges(around.fences)),
    ...[...systems].flatMap(([id, name]) =>
      is(
        'support',
        name,
        plots.map(({ facts }) => facts?.system === id),
        climbing,
      ),
    ),
    ...materials.flatMap((material) => {
      const beds = new Set(around.dressings.flatMap((one) => (one.material === material ? [one.bed] : [])))
      return is(
        'dressing',
        material,
        plots.map(({ bed }) => beds.has(bed)),
        null,
      )
    }),
    ...familyBefore(plots, around, is),
    ...kinds.flatMap((kind) => {
      const spots = around.seen.filter((one) => one.kind === kind)
      return near(
        'seen',
        kind,
        places.map(([x, y]) => least(spots, ({ at }) => Math.hypot(at[0] - x, at[1] - y))),
      )
    }),
  ]
}

const idOf = (kind: string, name: string | null): string => (name === null ? kind : `${kind}: ${name}`)

/** Share of the hours of direct sun that crowns and others' supports take from a plot's middle. */
function shade(places: readonly Metres[], { trees, supports }: Around, sun: readonly SunHour[]): Factor[] {
  const crowns = trees.map(({ at, canopyM, heightM }): Caster => {
    return { shape: 'crown', at, radiusM: canopyM, lowM: 0, highM: Math.max(heightM, 0.1) }
  })
  const walls = supports.flatMap(({ path, heightM }) =>
    path.slice(1).map((to, k) => ({ shape: 'wall', from: path[k]!, to, heightM }) as const),
  )
  const near = castersNear([...crowns, ...walls])
  const shares = places.map((place) => {
    const others = near(place).filter((one) => one.shape === 'crown' || toPathM(place, [one.from, one.to]) > OWN_M)
    const { sunHours, lostHours } = shadeHours([place], others, sun)
    return sunHours > 0 ? lostHours[0]! / sunHours : 0
  })
  return shares.some((share) => share > 0)
    ? [{ id: 'shade', kind: 'shade', name: null, reachM: null, values: shares, among: null }]
    : []
}

/** What may shade a place: casters in its square of 40 m or one next to it; what stands farther off is left out. */
function castersNear(casters: readonly Caster[]): (place: Metres) => readonly Caster[] {
  const squares = new Map<string, Set<Caster>>()
  const squareOf = ([x, y]: Metres): [number, number] => [Math.floor(x / SHADE_M), Math.floor(y / SHADE_M)]
  for (const caster of casters) {
    for (const foot of caster.shape === 'crown' ? [caster.at] : [caster.from, caster.to]) {
      const key = squareOf(foot).join(' ')
      squares.set(key, (squares.get(key) ?? new Set()).add(caster))
    }
  }
  return (place) => {
    const [i, j] = squareOf(place)
    const found = [-1, 0, 1].flatMap((a) => [-1, 0, 1].flatMap((b) => [...(squares.get(`${i + a} ${j + b}`) ?? [])]))
    return [...new Set(found)]
  }
}

/** Whether the same family stood in the bed in the two years before, among plots whose bed is known to have carried any. */
function familyBefore(
  plots: readonly PlotGround[],
  { history }: Around,
  is: (kind: Factor['kind'], name: null, values: readonly boolean[], among: readonly boolean[]) => Factor[],
): Factor[] {
  const byBed = new Map<string, Around['history'][number][]>()
  for (const one of history) byBed.set(one.bed, [...(byBed.get(one.bed) ?? []), one])
  const before = plots.map(({ bed, setOut }) => {
    const since = `${Number(setOut.slice(0, 4)) - BACK_YEARS}${setOut.slice(4)}`
    return (byBed.get(bed) ?? []).filter(({ cleared }) => cleared !== null && cleared <= setOut && cleared > since)
  })
  const same = plots.map(({ facts }, k) => before[k]!.some(({ family }) => family === facts?.family))
  return is(
    'family before',
    null,
    same,
    before.map((list, k) => list.length > 0 && plots[k]!.facts !== null),
  )
}

function least<T>(things: readonly T[], distance: (thing: T) => number): number {
  return things.reduce((found, thing) => Math.min(found, distance(thing)), Number.POSITIVE_INFINITY)
}

function toPathM([x, y]: Metres, path: Path): number {
  let found = Number.POSITIVE_INFINITY
  for (let k = 1; k < path.length; k += 1) {
    const [a, b] = [path[k - 1]!, path[k]!]
    const [dx, dy] = [b[0] - a[0], b[1] - a[1]]
    const length2 = dx * dx + dy * dy
    const t = length2 === 0 ? 0 : Math.min(1, Math.max(0, ((x - a[0]) * dx + (y - a[1]) * dy) / length2))
    found = Math.min(found, Math.hypot(a[0] + t * dx - x, a[1] + t * dy - y))
  }
  return found
}
