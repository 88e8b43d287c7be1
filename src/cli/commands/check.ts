import { ignoredText } from '../../../geo/exchange/tellIgnored.ts'
import { checkArchive, faultLine } from '../archive.ts'
import { argumentsOf, namedOperands } from '../arguments.ts'
import { type Command, jsonLine } from '../command.ts'
import { table } from '../table.ts'

export const check: Command = {
  usage: 'check ARCHIVE [--json]',
  does: 'tells what an archive holds, every fault in it and what is not read',
  async run(args, { out, error }) {
    const { operands, values } = argumentsOf(args, { json: 'switch' })
    const [archive] = namedOperands(operands, ['ARCHIVE'])
    const { records, faults, ignored } = await checkArchive(archive)
    if (values.json) out(jsonLine({ records, faults, ...(ignored.length > 0 && { ignored }) }))
    else out(`${table(['records', 'count'], Object.entries(records))}\n${faults.length === 0 ? '\nNo faults.\n' : ''}`)
    for (const one of ignored) error(`${ignoredText(one)}\n`)
    for (const fault of faults) error(`${faultLine(fault)}\n`)
    return faults.length > 0 ? 1 : 0
  },
}
