import type { Point, Polygon } from 'geojson'
import type { LonLat } from '../../../geo/plane/lonLat.ts'
import { type Plane, planeAbout } from '../../../geo/plane/plane.ts'
import type { SitedRow, SitingPlan } from '../../desk/siting/sitingDoor.ts'
import { type Block, heading, words } from '../../print/page/blocks.ts'
import { CAUTIONS } from '../cautions.ts'
import { type ListTools, print } from '../print/toPrint.ts'
import { lengthFigure, showCount, told } from '../show/figures.ts'
import { openFarm, units } from '../state/farm.ts'
import { layers, measured } from '../state/shown.ts'
import { familySpans } from './familySpans.ts'
import { partsTable } from './materials.ts'
import { bedName, lotPlace, rowLine, sideWords } from './rowLines.ts'
import { bestPair, type FixedPoint, stakesOf } from './stakeOut.ts'

/** The usual order of work on such a run; common practice. */
const ORDER = [
  'Ask the local buried-services line and wait for its answer; have lines marked.',
  'Lift what stands in stock in the way, and clear the bed.',
  'Stake both ends by the two tapes, stretch a line, mark each post.',
  'Set the end posts and their braces, then the posts between.',
  'Draw the wires, tension them a little at a time from the end, and stand aside of them.',
]

/** Opens the staking-out sheet for what a plan builds: both ends of each run from two fixed points. */
export function printStakes(plan: SitingPlan): void {
  const origin = openFarm.value?.origin
  if (!origin) return
  const plane = planeAbout(origin)
  const runs = plan.rows.flatMap((row): Run[] => {
    const line = row.stands ? null : rowLine(row.bed, row.side)
    return line ? [{ name: `${bedName(row.bed)}, ${sideWords(row.bed, row.side)}`, line, row }] : []
  })
  print({
    title: 'Staking-out sheet',
    cautions: CAUTIONS.siting,
    compose: ({ map }): Block[] => [
      heading('Runs to be built'),
      ...(runs.length === 0 ? [words('This plan builds nothing new.')] : []),
      ...byField(runs).flatMap((some) => stakesBlocks(some, plane, map)),
      ...liftFirst(plan),
      ...oneSeason(plan),
      heading('Order of work'),
      { block: 'list', items: ORDER },
      ...toHave(plan),
    ],
  })
}

const plain = (head: string) => ({ head, number: false })

interface Run {
  readonly name: string
  readonly line: readonly [LonLat, LonLat]
  readonly row: SitedRow
}

/** Runs field by field, with the field's name: each is taped from two points of its own. */
function byField(runs: readonly Run[]): { readonly field: string; readonly runs: readonly Run[] }[] {
  const fieldOf = new Map(measured.value?.beds.map(({ id, field }) => [id, field]))
  const names = new Map(measured.value?.fields.map(({ id, name }) => [id, name]))
  const found = new Map<string, Run[]>()
  for (const run of runs) {
    const field = names.get(fieldOf.get(run.row.bed) ?? '') ?? ''
    found.set(field, [...(found.get(field) ?? []), run])
  }
  return [...found].map(([field, some]) => ({ field, runs: some }))
}

/** The ends of a field's runs by two tapes, and a map with the points that these begin at. */
function stakesBlocks(
  { field, runs }: ReturnType<typeof byField>[number],
  plane: Plane,
  map: ListTools['map'],
): readonly Block[] {
  const ends = runs.flatMap(({ line }) => [...line])
  const pair = bestPair(fixedPoints(), ends, plane)
  const head = heading(field, true)
  if (!pair) return [head, words('There are fewer than two fixed points to tape from: draw a tree, a pole or a field.')]
  const m = (value: number) => told(lengthFigure(value, units.value))
  const marks = pair.map(({ at }, n) => ({ letter: 'AB'[n]!, at }))
  return [
    head,
    words(
      `Tape from A, ${pair[0].name}, and from B, ${pair[1].name}. Lengths are level, on the flat. The side is that of the line from A to B, looking from A.`,
    ),
    {
      block: 'table',
      table: {
        caption: `Ends of runs in ${field}`,
        ticked: true,
        columns: [plain('end'), { head: 'from A', number: true }, { head: 'from B', number: true }, plain('side')],
        rows: runs.flatMap((run) => [
          { heading: `${run.name}: ${m(run.row.length_m)}, in ${run.row.built}` },
          ...stakesOf([run], pair, plane).map(({ end, fromA, fromB, side }) => ({
            cells: [`${end} end`, m(fromA), m(fromB), side],
          })),
        ]),
      },
    },
    map(
      [...ends, ...marks.map(({ at }) => at)],
      80,
      `Where they stand in ${field}`,
      runs.map(({ row }) => row.bed),
      marks,
    ),
  ]
}

/** Stock to be lifted before the plan builds or plants, to be ticked off. */
const liftFirst = ({ lift }: SitingPlan): Block[] =>
  lift.length === 0
    ? []
    : [
        heading('Stock to lift first'),
        {
          block: 'table',
          table: {
            caption: 'Stock to lift first',
            ticked: true,
            columns: [plain('row'), plain('stock'), { head: 'plants', number: true }, { head: 'before', number: true }],
            rows: lift.map((one) => ({
              cells: [lotPlace(one), one.kind, showCount(one.count), String(one.before)],
            })),
          },
        },
      ]

/** What climbs supports that are pulled in autumn, bed by bed. */
const oneSeason = ({ one_season: beds }: SitingPlan): Block[] =>
  beds.length === 0
    ? []
    : [
        heading('Along supports of one season'),
        {
          block: 'table',
          table: {
            caption: 'Along supports of one season',
            ticked: false,
            columns: [plain('bed'), plain('climbs')],
            rows: beds.flatMap(({ bed, years }) =>
              familySpans(years).map((span, n) => ({ cells: [n === 0 ? bedName(bed) : '', span] })),
            ),
          },
        },
      ]

/** Parts of what is built, by the year. */
const toHave = ({ materials }: SitingPlan): Block[] =>
  materials.flatMap(({ year, parts }): Block[] => {
    const building = parts.filter(({ use }) => use === 'building')
    return building.length === 0
      ? []
      : [
          heading(`Parts to have at hand in ${year}`, true),
          { block: 'table', table: partsTable(`Parts to have at hand in ${year}`, building) },
        ]
  })

/** Trunks, structures that are points, and corners of fields. */
function fixedPoints(): FixedPoint[] {
  const seen = layers.value
  if (!seen) return []
  return [
    ...seen.trees.features.map(({ geometry, properties }) => ({
      name: `trunk of ${properties.name ?? properties.species}`,
      at: (geometry as Point).coordinates as unknown as LonLat,
    })),
    ...seen.structures.features.flatMap(({ geometry, properties }) =>
      geometry.type === 'Point'
        ? [{ name: properties.name ?? properties.kind, at: geometry.coordinates as unknown as LonLat }]
        : [],
    ),
    ...seen.fields.features.flatMap(({ geometry, properties }) =>
      geometry.type === 'Polygon'
        ? (geometry as Polygon).coordinates[0]!.slice(0, -1).map((at, n) => ({
            name: `corner ${n + 1} of ${properties.name}`,
            at: [at[0]!, at[1]!] as LonLat,
          }))
        : [],
    ),
  ]
}
