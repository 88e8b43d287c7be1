import { parseArgs } from 'node:util'
import { isDay } from '../../geo/model/field.ts'
import { WrongUse } from './wrongUse.ts'

/** An option of a command: a switch, or one with a value. */
type Options = Readonly<Record<string, 'switch' | 'value'>>

/** The operands and options of a command line; throws `WrongUse` for what the command does not know. */
export function argumentsOf(
  args: readonly string[],
  options: Options,
): { operands: string[]; values: Record<string, string | boolean | undefined> } {
  const known = Object.fromEntries(
    Object.entries(options).map(([name, type]) => [name, { type: type === 'switch' ? 'boolean' : 'string' } as const]),
  )
  try {
    const { values, positionals } = parseArgs({ args: [...args], options: known, allowPositionals: true })
    return { operands: positionals, values: values as Record<string, string | boolean | undefined> }
  } catch (error) {
    throw new WrongUse((error as Error).message)
  }
}

/** The operands by their names; throws `WrongUse` where one is missing or too many are given. */
export function namedOperands<const N extends readonly string[]>(
  operands: readonly string[],
  names: N,
): { [K in keyof N]: string } {
  if (operands.length < names.length) throw new WrongUse(`${names[operands.length]} is missing`)
  if (operands.length > names.length)
    throw new WrongUse(`${JSON.stringify(operands[names.length])} is one word too many`)
  return operands as unknown as { [K in keyof N]: string }
}

/** The day looked at: `--on`, else today by the machine's clock. */
export function dayOf(given: string | boolean | undefined, now: Date): string {
  if (given === undefined) {
    const [month, day] = [now.getMonth() + 1, now.getDate()].map((n) => String(n).padStart(2, '0'))
    return `${now.getFullYear()}-${month}-${day}`
  }
  if (typeof given !== 'string' || !isDay(given)) throw new WrongUse(`--on ${given}: not a day written YYYY-MM-DD`)
  return given
}

/** A number above zero given to an option. */
export function positiveOf(name: string, given: string | boolean | undefined, otherwise: number): number {
  if (given === undefined) return otherwise
  const value = Number(given)
  if (!(value > 0 && value < Number.POSITIVE_INFINITY))
    throw new WrongUse(`--${name} ${given}: not a number above zero`)
  return value
}
