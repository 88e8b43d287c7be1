import { stat } from 'node:fs/promises'
import { join, resolve } from 'node:path'
import { argumentsOf, namedOperands } from '../arguments.ts'
import type { Command } from '../command.ts'
import { startServer } from '../startServer.ts'
import { WrongUse } from '../wrongUse.ts'

const DIST = resolve(import.meta.dirname, '../../../dist')
const PORT = 5290

export const serve: Command = {
  usage: 'serve [--port N] [--host ADDRESS]',
  does: 'serves the built page, to this machine only unless a host is named',
  async run(args, { out }) {
    const { operands, values } = argumentsOf(args, { port: 'value', host: 'value' })
    namedOperands(operands, [])
    const port = values.port === undefined ? PORT : Number(values.port)
    if (!Number.isInteger(port) || port < 0 || port > 65535) throw new WrongUse(`--port ${values.port}: not a port`)
    if (!(await stat(join(DIST, 'index.html')).catch(() => null)))
      throw new WrongUse('the page is not built: npm run build')
    const host = typeof values.host === 'string' ? { host: values.host } : {}
    const { url } = await startServer({ dir: DIST, port, ...host }).catch((error: NodeJS.ErrnoException) => {
      if (error.code === 'EADDRINUSE') throw new WrongUse(`port ${port} is taken: name another with --port`)
      throw error
    })
    out(`Selion is at ${url} (Ctrl+C ends it)\n`)
    await new Promise<void>((end) => {
      process.once('SIGINT', end)
      process.once('SIGTERM', end)
    })
    return 0
  },
}
