import { z } from 'zod'

/** How a field is kept in Postgres. */
export type SqlType = 'text' | 'double precision' | 'integer' | 'boolean' | 'date' | 'jsonb'

/** One field of a record: its check, its column type, and how a boolean is spelt in the archive's CSV. */
export interface Field<T> {
  readonly schema: z.ZodType<T>
  readonly sql: SqlType
  readonly spelling?: 'yes/no' | 'true/false'
  /** The kind whose `id` this field names. */
  readonly refers?: string
  readonly required: boolean
}

const DAY = /^(\d{4})-(\d{2})-(\d{2})$/

/** True for a calendar day that exists, written `YYYY-MM-DD` (RFC 3339 full-date). */
export function isDay(text: string): boolean {
  const match = DAY.exec(text)
  if (!match) return false
  const [year, month, day] = [Number(match[1]), Number(match[2]), Number(match[3])]
  if (year < 1 || month < 1 || month > 12 || day < 1) return false
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0
  const days = [31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]
  return day <= days[month - 1]!
}

const required = <T>(schema: z.ZodType<T>, sql: SqlType, more: Partial<Field<T>> = {}): Field<T> => ({
  schema,
  sql,
  required: true,
  ...more,
})

const finite = z.number('is not a finite number')

export const text = () =>
  required(
    z
      .string('is not text')
      .min(1, 'is empty')
      .refine((s) => !s.includes('\0'), 'holds a NUL character'),
    'text',
  )
export const day = () =>
  required(z.string('is not a date').refine(isDay, 'is not a calendar day written YYYY-MM-DD'), 'date')
export const number = () => required(finite, 'double precision')
export const positive = () => required(finite.positive('must be above zero'), 'double precision')
export const notNegative = () => required(finite.min(0, 'must not be below zero'), 'double precision')
export const between = (low: number, high: number) =>
  required(finite.min(low, `must not be below ${low}`).max(high, `must not be above ${high}`), 'double precision')
export const wholeBetween = (low: number, high: number) =>
  required(
    finite
      .refine(Number.isInteger, 'is not a whole number')
      .min(low, `must not be below ${low}`)
      .max(high, `must not be above ${high}`),
    'integer',
  )
export const count = () => wholeBetween(0, 2_000_000_000)
export const yesNo = () => required(z.boolean('is neither yes nor no'), 'boolean', { spelling: 'yes/no' })
export const flag = () => required(z.boolean('is neither true nor false'), 'boolean', { spelling: 'true/false' })
export const oneOf = <const V extends readonly [string, ...string[]]>(...values: V) =>
  required(z.enum(values, `is none of ${values.join(', ')}`) as unknown as z.ZodType<V[number]>, 'text')
export const ref = (kind: string) => required(z.string('is not text').min(1, 'is empty'), 'text', { refers: kind })
export const json = <T>(schema: z.ZodType<T>) => required(schema, 'jsonb')

/** The same field where the archive may leave it empty: null is "not known". */
export const optional = <T>(field: Field<T>): Field<T | null> => ({
  ...field,
  schema: field.schema.nullable(),
  required: false,
})
