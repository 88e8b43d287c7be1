import { DatabaseError } from '../../../geo/store/database.ts'
import { sqlAnswer } from '../../../geo/store/sqlAnswer.ts'
import { withArchive } from '../archive.ts'
import { argumentsOf, namedOperands } from '../arguments.ts'
import { type Command, jsonLine } from '../command.ts'
import { csvLines } from '../csvLines.ts'
import { type Cell, table } from '../table.ts'
import { WrongUse } from '../wrongUse.ts'

export const sql: Command = {
  usage: 'sql ARCHIVE "select …" [--json|--geojson|--csv]',
  does: 'asks the farm in SQL, reading only',
  async run(args, { out }) {
    const { operands, values } = argumentsOf(args, { json: 'switch', geojson: 'switch', csv: 'switch' })
    const [archive, query] = namedOperands(operands, ['ARCHIVE', 'a query'])
    if ([values.json, values.geojson, values.csv].filter(Boolean).length > 1)
      throw new WrongUse('--json, --geojson and --csv exclude one another')
    const { columns, geometry, rows } = await withArchive(archive, (db) =>
      sqlAnswer(db, query).catch((error: unknown) => {
        throw error instanceof DatabaseError ? new WrongUse(error.message) : error
      }),
    )
    if (values.geojson) {
      if (geometry === null) throw new WrongUse('--geojson needs a geometry among the columns')
      const features = rows.map(({ [geometry]: place, ...properties }) => ({
        type: 'Feature',
        geometry: place ?? null,
        properties,
      }))
      out(jsonLine({ type: 'FeatureCollection', features }))
    } else if (values.json) out(jsonLine(rows))
    else {
      const cells = rows.map((row) => columns.map((column) => cellOf(row[column])))
      out(values.csv ? csvLines([columns, ...cells]) : `${table(columns, cells, 6)}\n`)
    }
    return 0
  },
}

function cellOf(value: unknown): Cell {
  if (value === null || value === undefined) return null
  if (typeof value === 'number' || typeof value === 'boolean' || typeof value === 'string') return value
  return JSON.stringify(value)
}
