import { numberOf } from '../layers/takeValue.ts'

/** Two numbers of one cell in the order in which they stand, and how many decimals the one told less finely has. */
export interface PairRead {
  readonly numbers: readonly [number, number]
  readonly decimals: number
}

/**
 * The two numbers of a cell such as `46.3371, 15.6401`; brackets about them are let pass. They are parted by a semicolon, by
 * space, or by a comma, which may be a decimal sign only where one of the others parts them. Null where it holds no such pair.
 */
export function readPair(cell: string): PairRead | null {
  const text = cell.trim().replace(/^[([{]\s*|\s*[)\]}]$/g, '')
  const told = partedBy(text, /\s*;\s*/) ?? partedBy(text, /\s*,\s+|\s+/) ?? partedBy(text, /,/)
  const [first, second] = told?.map(numberOf) ?? []
  if (typeof first !== 'number' || typeof second !== 'number') return null
  return { numbers: [first, second], decimals: Math.min(...told!.map(decimalsOf)) }
}

function partedBy(text: string, sign: RegExp): string[] | null {
  const parts = text.split(sign)
  return parts.length === 2 ? parts : null
}

/** How many digits stand behind a number's decimal sign. */
export function decimalsOf(number: string): number {
  return /[.,](\d+)\s*$/.exec(number)?.[1]?.length ?? 0
}
