import type { Feature } from 'geojson'
import type { LonLat } from '../../../geo/plane/lonLat.ts'
import { type Block, heading, type PrintRow } from '../../print/page/blocks.ts'
import { print } from '../print/toPrint.ts'
import { showDay } from '../show/dates.ts'
import { showCount } from '../show/figures.ts'
import { layers } from '../state/shown.ts'
import { on } from '../state/where.ts'
import { blockedBeds, dueWords, forWords, type LiftLine, liftLines } from './liftLines.ts'

/** Prints the lifting list: by the day wanted and by bed, with boxes to tick, where it stands, and what it blocks. */
export function printLifting(): void {
  const lines = liftLines()
  const fields = fieldsToLiftFrom(lines)
  const toLift = `To lift: ${showCount(lines.reduce((sum, { count }) => sum + count, 0))} plants`
  print({
    title: `Lifting list, ${showDay(on.value)}`,
    cautions: [
      'Lift with your knees or with a second person. Before digging deeper than the bed was worked, ask the local buried-services line.',
    ],
    compose: ({ map }) => [
      heading(toLift, true),
      {
        block: 'table',
        table: {
          caption: toLift,
          ticked: true,
          columns: [
            { head: 'where', number: false },
            { head: 'lot', number: false },
            { head: 'for', number: false },
            { head: 'plants', number: true },
          ],
          rows: rowsOf(lines),
        },
      },
      ...fields.map(({ name, beds, places }) => map(places, MAP_MM, `The beds to lift from in ${name}`, beds)),
      heading(BLOCKS, true),
      blocks(),
      { block: 'lines', count: 4 },
    ],
  })
}

function rowsOf(lines: readonly LiftLine[]): PrintRow[] {
  const rows: PrintRow[] = []
  let day: string | null = null
  for (const line of lines) {
    const words = dueWords(line)
    if (words !== day) rows.push({ heading: line.due === null ? words : `Wanted ${words}` })
    day = words
    const { kind, grade } = line.lot
    rows.push({
      cells: [line.where, grade === null ? kind : `${kind}, ${grade}`, forWords(line), showCount(line.count)],
    })
  }
  return rows
}

/** Height of a field's map. */
const MAP_MM = 70

const BLOCKS = 'Beds that can’t be dug or get posts until these are lifted'

const blocks = (): Block => ({
  block: 'table',
  table: {
    caption: BLOCKS,
    ticked: false,
    columns: [
      { head: 'bed', number: false },
      { head: 'lots', number: false },
      { head: 'in the ground', number: true },
    ],
    rows: blockedBeds().map(({ bedName, lots }) => ({
      cells: [
        bedName,
        [...new Set(lots.map(({ lot }) => lot.kind))].join('; '),
        showCount(lots.reduce((sum, { counts }) => sum + counts.standing, 0)),
      ],
    })),
  },
})

/** A field with beds to lift from: these, and the corners of their outlines. */
interface LiftField {
  readonly name: string
  readonly beds: readonly string[]
  readonly places: readonly LonLat[]
}

/** The fields that the lines lead to, in the farm's order. */
function fieldsToLiftFrom(lines: readonly LiftLine[]): readonly LiftField[] {
  const wanted = new Set(lines.map(({ bed }) => bed))
  const beds = layers.value?.beds.features.filter(({ properties }) => wanted.has(properties.id)) ?? []
  return (layers.value?.fields.features ?? []).flatMap(({ properties: { id, name } }) => {
    const here = beds.filter(({ properties }) => properties.field === id)
    return here.length === 0
      ? []
      : [{ name, beds: here.map(({ properties }) => properties.id), places: here.flatMap(cornersOf) }]
  })
}

const cornersOf = ({ geometry }: Feature): LonLat[] =>
  geometry.type === 'Polygon' ? (geometry.coordinates[0] as unknown as LonLat[]) : []
