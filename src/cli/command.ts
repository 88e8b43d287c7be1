/** Where a command writes, and what time it is. */
export interface Setting {
  readonly out: (text: string) => void
  readonly error: (text: string) => void
  readonly now: Date
}

/** A command of the command line: does its work and gives the exit code. */
export interface Command {
  /** Its words after `selion`, for the usage text. */
  readonly usage: string
  readonly does: string
  run(args: readonly string[], setting: Setting): Promise<number>
}

/** A value as JSON on one line, numbers unrounded. */
export function jsonLine(value: unknown): string {
  return `${JSON.stringify(value)}\n`
}
