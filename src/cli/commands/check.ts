import { checkArchive, faultLine } from '../archive.ts'
import { argumentsOf, namedOperands } from '../arguments.ts'
import { type Command, jsonLine } from '../command.ts'
import { table } from '../table.ts'

export const check: Command = {
  usage: 'check ARCHIVE [--json]',
  does: 'tells what an archive holds and every fault in it',
  async run(args, { out, error }) {
    const { operands, values } = argumentsOf(args, { json: 'switch' })
    const [archive] = namedOperands(operands, ['ARCHIVE'])
    const { records, faults } = await checkArchive(archive)
    if (values.json) out(jsonLine({ records, faults }))
    else out(`${table(['records', 'count'], Object.entries(records))}\n${faults.length === 0 ? '\nNo faults.\n' : ''}`)
    for (const fault of faults) error(`${faultLine(fault)}\n`)
    return faults.length > 0 ? 1 : 0
  },
}
