import type { LonLat } from '../../../geo/plane/lonLat.ts'
import type { BookBed } from '../../desk/door.ts'
import { type Block, heading, type PrintRow, words } from '../../print/page/blocks.ts'
import { print } from '../print/toPrint.ts'
import { showDay, showDayOfYear } from '../show/dates.ts'
import { areaFigure, densityFigure, lengthFigure, massFigure, showCount, told } from '../show/figures.ts'
import { ask } from '../state/door.ts'
import { units } from '../state/farm.ts'
import { layers } from '../state/shown.ts'

/** Opens the season as a book in the print dialog; null when it is there, else why not. */
export async function printBook(season: number): Promise<string | null> {
  const reply = await ask('seasonBook', { season })
  if (!reply.ok) return reply.fault.detail
  const { from, to, beds } = reply.value
  if (beds.length === 0) return 'There is no bed yet of which a page could tell.'
  const span = `${showDay(from)} to ${showDay(to)}`
  print({
    title: `Season ${season}`,
    cautions: ['Raw manure and harvest intervals follow the local food-safety rule.'],
    compose: ({ map }) => [
      ...contents(beds, span),
      ...beds.flatMap((bed): Block[] => [{ block: 'page' }, ...bedPage(bed, span, map)]),
    ],
  })
  return null
}

type MapOf = (places: readonly LonLat[], highMm: number, caption: string | null) => Block

const table = (
  caption: string,
  heads: readonly [head: string, number?: boolean][],
  rows: readonly PrintRow[],
): Block[] =>
  rows.length === 0
    ? []
    : [
        heading(caption, true),
        {
          block: 'table',
          table: {
            caption,
            ticked: false,
            columns: heads.map(([head, number = false]) => ({ head, number })),
            rows,
          },
        },
      ]

const mass = (kg: number, unweighed: number) =>
  `${told(massFigure(kg, units.value))}${unweighed > 0 ? ` and ${showCount(unweighed)} not weighed` : ''}`

function kgOf(bed: BookBed): number {
  return bed.plantings.reduce((sum, { kg }) => sum + kg, bed.others.kg)
}

/** The first page: the season's sum, and every bed with what it gave. */
function contents(beds: readonly BookBed[], span: string): Block[] {
  const figure = massFigure(
    beds.reduce((sum, bed) => sum + kgOf(bed), 0),
    units.value,
  )
  const rows: PrintRow[] = []
  let field: string | null = null
  for (const bed of beds) {
    if (bed.field !== field) rows.push({ heading: bed.field })
    field = bed.field
    const stood = [...bed.plantings.map(({ crop }) => crop), ...bed.lots.map(({ kind }) => kind)]
    const picks = bed.plantings.reduce((sum, planting) => sum + planting.picks, bed.others.picks)
    rows.push({
      cells: [bed.name, [...new Set(stood)].join('; '), picks === 0 ? '' : told(massFigure(kgOf(bed), units.value))],
    })
  }
  return [
    { block: 'figure', ...figure, words: `picked from these beds, ${span}` },
    ...table('Beds', [['bed'], ['what stood in it'], ['picked', true]], rows),
  ]
}

function bedPage(bed: BookBed, span: string, map: MapOf): Block[] {
  const outline = outlineOf(bed.id)
  const nothing =
    bed.plantings.length + bed.dressings.length + bed.seen.length + bed.lots.length === 0 && bed.others.picks === 0
  return [
    heading(bed.name),
    words(
      `${bed.field}; ${told(areaFigure(bed.area_m2, units.value))}; ${span}; ${told(massFigure(kgOf(bed), units.value))} picked`,
      true,
    ),
    ...(outline.length > 0 ? [map(outline, 55, null)] : []),
    ...table(
      'Rows',
      [['row'], ['length', true]],
      bed.rows.map(({ name, side, length_m }, i) => ({
        cells: [rowWords(name, side) || `row ${i + 1}`, told(lengthFigure(length_m, units.value))],
      })),
    ),
    ...table(
      'What stood here and what it gave',
      [['crop'], ['variety'], ['row'], ['set out'], ['cleared'], ['length', true], ['picks', true], ['picked', true]],
      bed.plantings.map((p) => ({
        cells: [
          p.crop,
          p.variety,
          p.row ?? '',
          showDay(p.from),
          p.until === null ? '' : showDay(p.until),
          told(lengthFigure(p.length_m, units.value)),
          showCount(p.picks),
          p.picks === 0 ? '' : mass(p.kg, p.unweighed),
        ],
      })),
    ),
    ...(bed.others.picks > 0
      ? [
          words(
            `Told of the bed as a whole, or of a spot in it: ${mass(bed.others.kg, bed.others.unweighed)} in ${showCount(bed.others.picks)} ${bed.others.picks === 1 ? 'pick' : 'picks'}.`,
          ),
        ]
      : []),
    ...table(
      'What was put on',
      [['day'], ['what'], ['amount', true], ['note']],
      bed.dressings.map((d) => ({
        cells: [
          showDayOfYear(d.on),
          d.raw_manure ? `${d.material} (raw manure)` : d.material,
          d.kg_per_m2 === null ? '' : told(densityFigure(d.kg_per_m2, units.value)),
          d.note ?? '',
        ],
      })),
    ),
    ...table(
      'What was seen',
      [['day'], ['what'], ['severity', true], ['note']],
      bed.seen.map((s) => ({
        cells: [showDayOfYear(s.on), s.kind, s.severity === null ? '' : `${s.severity} of 5`, s.note ?? ''],
      })),
    ),
    ...table(
      'Stock at the season’s end',
      [['lot'], ['row'], ['raised', true], ['sold', true], ['lost', true], ['left', true], ['in the ground', true]],
      bed.lots.map(({ kind, grade, row, counts }) => ({
        cells: [
          grade === null ? kind : `${kind}, ${grade}`,
          row ?? '',
          ...[counts.raised, counts.sold, counts.lost, counts.left, counts.standing].map(showCount),
        ],
      })),
    ),
    ...(nothing ? [words('Nothing is recorded of this bed in the season.')] : []),
    { block: 'lines', count: 3 },
  ]
}

/** A row by its name, and its side where the name does not tell it. */
const rowWords = (name: string | null, side: string | null): string =>
  side !== null && !name?.includes(side) ? [name, side].filter((one) => one !== null).join(', ') : (name ?? '')

function outlineOf(bed: string): LonLat[] {
  const geometry = layers.value?.beds.features.find(({ properties }) => properties.id === bed)?.geometry
  return geometry?.type === 'Polygon' ? (geometry.coordinates[0] as unknown as LonLat[]) : []
}
