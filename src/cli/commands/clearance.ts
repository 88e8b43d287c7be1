import { clearance as clearanceOf } from '../../../geo/measure/clearance.ts'
import { withArchive } from '../archive.ts'
import { argumentsOf, dayOf, namedOperands } from '../arguments.ts'
import { type Command, jsonLine } from '../command.ts'
import { table } from '../table.ts'

export const clearance: Command = {
  usage: 'clearance ARCHIVE [--on YYYY-MM-DD] [--json]',
  does: 'distances from juglone sources to the beds near them on a day',
  async run(args, { out, now }) {
    const { operands, values } = argumentsOf(args, { on: 'value', json: 'switch' })
    const [archive] = namedOperands(operands, ['ARCHIVE'])
    const on = dayOf(values.on, now)
    const pairs = await withArchive(archive, (db) => clearanceOf(db, on))
    if (values.json) {
      out(jsonLine({ pairs }))
      return 0
    }
    const columns = ['bed', 'tree', 'trunk m', 'canopy m', 'm² under canopy', 'm² within reach', 'sensitive there']
    const rows = pairs.map((p) => [
      p.bed,
      p.tree,
      p.trunk_m,
      p.canopy_m,
      p.under_canopy_m2,
      p.within_reach_m2,
      p.sensitive.join(', ') || null,
    ])
    out(`On ${on}. Evidence on juglone is disputed: take distances as guidance.\n\n${table(columns, rows)}\n`)
    return 0
  },
}
