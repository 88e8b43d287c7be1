import { measure as measureFarm } from '../../../geo/measure/measure.ts'
import { withArchive } from '../archive.ts'
import { argumentsOf, dayOf, namedOperands } from '../arguments.ts'
import { type Command, jsonLine } from '../command.ts'
import { table } from '../table.ts'

export const measure: Command = {
  usage: 'measure ARCHIVE [--on YYYY-MM-DD] [--json]',
  does: 'areas, rows, supports, held and unheld metres of every field and bed on a day',
  async run(args, { out, now }) {
    const { operands, values } = argumentsOf(args, { on: 'value', json: 'switch' })
    const [archive] = namedOperands(operands, ['ARCHIVE'])
    const on = dayOf(values.on, now)
    const measured = await withArchive(archive, (db) => measureFarm(db, on))
    if (values.json) {
      out(jsonLine(measured))
      return 0
    }
    const fields = measured.fields.map((f) => [
      f.name,
      f.area_m2,
      f.bed_count,
      f.bed_area_m2,
      f.row_m,
      f.climbing_m,
      f.held_m,
      f.unheld_m,
    ])
    const systems = measured.fields.flatMap((f) =>
      Object.entries(f.support_m)
        .filter(([, lengthM]) => lengthM > 0)
        .map(([name, lengthM]) => [f.name, name, lengthM]),
    )
    const nameOf = new Map(measured.fields.map((f) => [f.id, f.name]))
    const beds = measured.beds.map((b) => [
      b.name,
      nameOf.get(b.field),
      b.area_m2,
      b.length_m,
      b.width_m,
      b.bearing_deg,
      b.row_m,
      b.support_m,
      b.climbing_m,
      b.unheld_m,
    ])
    out(`On ${on}. Areas in m², lengths in m.\n\n`)
    out(`${table(['field', 'area', 'beds', 'bed area', 'rows', 'climbing', 'held', 'unheld'], fields)}\n\n`)
    out(`${table(['field', 'support system', 'metres'], systems)}\n\n`)
    out(
      `${table(['bed', 'field', 'area', 'length', 'width', 'bearing', 'rows', 'supports', 'climbing', 'unheld'], beds)}\n`,
    )
    return 0
  },
}
