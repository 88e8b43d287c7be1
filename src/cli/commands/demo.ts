import { makeDemo } from '../../../fixtures/demo/makeDemo.ts'
import { argumentsOf, namedOperands } from '../arguments.ts'
import type { Command } from '../command.ts'
import { writeFolder } from '../writeFolder.ts'
import { WrongUse } from '../wrongUse.ts'

export const demo: Command = {
  usage: 'demo DIR [--replace]',
  does: 'writes the demo farm, which is invented, as an archive (with --replace over a farm that is there)',
  async run(args, { out }) {
    const { operands, values } = argumentsOf(args, { replace: 'switch' })
    const [dir] = namedOperands(operands, ['DIR'])
    const refused = await writeFolder(dir, makeDemo(), { replace: values.replace === true })
    if (refused) throw new WrongUse(refused)
    out(`The demo farm (invented) is in ${dir}.\n`)
    return 0
  },
}
