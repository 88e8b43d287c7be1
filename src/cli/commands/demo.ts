import { makeDemo } from '../../../fixtures/demo/makeDemo.ts'
import { argumentsOf, namedOperands } from '../arguments.ts'
import type { Command } from '../command.ts'
import { writeFolder } from '../folder.ts'
import { WrongUse } from '../wrongUse.ts'

export const demo: Command = {
  usage: 'demo DIR',
  does: 'writes the demo farm, which is invented, as an archive',
  async run(args, { out }) {
    const { operands } = argumentsOf(args, {})
    const [dir] = namedOperands(operands, ['DIR'])
    const refused = await writeFolder(dir, makeDemo())
    if (refused) throw new WrongUse(refused)
    out(`The demo farm (invented) is in ${dir}.\n`)
    return 0
  },
}
