import type { Command, Setting } from './command.ts'
import { WrongUse } from './wrongUse.ts'

/** Commands by name, each loaded when it is called. */
const COMMANDS: Readonly<Record<string, () => Promise<Command>>> = {
  check: async () => (await import('./commands/check.ts')).check,
  measure: async () => (await import('./commands/measure.ts')).measure,
  clearance: async () => (await import('./commands/clearance.ts')).clearance,
  yield: async () => (await import('./commands/yield.ts')).yieldCommand,
  supports: async () => (await import('./commands/supports.ts')).supports,
  site: async () => (await import('./commands/site.ts')).site,
  sql: async () => (await import('./commands/sql.ts')).sql,
  convert: async () => (await import('./commands/convert.ts')).convert,
  demo: async () => (await import('./commands/demo.ts')).demo,
  serve: async () => (await import('./commands/serve.ts')).serve,
}

/**
 * Runs the command that the words name and gives the exit code: 0 well, 1 the input has faults, 2 wrong use. Both are
 * told by `setting.error`; anything else that goes wrong throws.
 */
export async function run([name, ...args]: readonly string[], setting: Setting): Promise<number> {
  if (name === 'help' || name === '--help') {
    setting.out(await usage(undefined))
    return 0
  }
  const load = name !== undefined && Object.hasOwn(COMMANDS, name) ? COMMANDS[name] : undefined
  try {
    if (!load) throw new WrongUse(name ? `there is no command ${JSON.stringify(name)}` : 'a command is missing')
    return await (await load()).run(args, setting)
  } catch (error) {
    if (error instanceof WrongUse) {
      setting.error(`selion: ${error.message}\n\n${await usage(load)}`)
      return 2
    }
    if (isFileError(error)) {
      setting.error(`selion: ${error.message}\n`)
      return 2
    }
    const { Faulty, faultLine } = await import('./archive.ts')
    if (!(error instanceof Faulty)) throw error
    for (const fault of error.faults) setting.error(`${faultLine(fault)}\n`)
    return 1
  }
}

/** How the command named is called, or every command where none is. */
async function usage(named: (() => Promise<Command>) | undefined): Promise<string> {
  const commands = await Promise.all((named ? [named] : Object.values(COMMANDS)).map((load) => load()))
  const lines = commands.map(({ usage, does }) => `  ${named ? 'selion ' : ''}${usage}\n      ${does}`)
  return [...(named ? [] : ['selion COMMAND …']), ...lines, ''].join('\n')
}

/** A file or folder that can't be read or written; what the system says of it names the file. */
function isFileError(error: unknown): error is NodeJS.ErrnoException {
  return error instanceof Error && 'syscall' in error && 'path' in error
}
