import { DatabaseError } from './database.ts'

/** An expected fault of an edit, in words a grower can act on. `accept`: fields that, set on the record, waive it. */
export interface EditFault {
  readonly kind: string | null
  readonly record: string | null
  readonly field: string | null
  readonly reason: string
  readonly accept?: Readonly<Record<string, unknown>>
}

const REASONS: Readonly<Record<string, readonly [field: string, reason: string]>> = {
  fields_valid: ['geom', 'the outline crosses or touches itself'],
  beds_valid: ['geom', 'the outline crosses or touches itself'],
  beds_days: ['retired', 'retired before it was made'],
  trees_days: ['removed', 'removed before it was planted'],
  supports_days: ['taken_down', 'taken down before it was put up'],
  plantings_days: ['cleared', 'cleared before it was set out'],
  plantings_stretch: ['to_m', 'the stretch ends before it begins'],
  plantings_place: ['row', 'stands in no row and no bed'],
  picks_place: ['planting', 'needs one place: a planting, a bed, or a position'],
  stock_lots_place: ['bed', 'stands in no bed and no row'],
  crops_yield_range: ['yield_high_kg_per_m2', 'is below the low end of the range'],
  containers_unit_crop: ['unit', 'this container has a weight for this crop already'],
}

/** What a database error means to the person who edited; null where it is a bug rather than a fault. */
export function faultOf(error: unknown): EditFault | null {
  if (!(error instanceof DatabaseError)) return null
  const { sqlState, constraint = '', table = null, column = null, detail, message } = error
  if (sqlState === 'SL001') {
    const waives = constraint === 'bed_within_field' || constraint === 'row_along_bed'
    return {
      kind: table,
      record: detail ?? null,
      field: column,
      reason: message,
      ...(waives ? { accept: { outside_accepted: true } } : {}),
    }
  }
  if (constraint.endsWith('_near'))
    return { kind: table, record: null, field: 'geom', reason: 'lies farther than 100 km from the farm’s origin' }
  const known = REASONS[constraint]
  if (known) return { kind: table, record: null, field: known[0], reason: known[1] }
  if (sqlState === '23503')
    return {
      kind: table,
      record: null,
      field: null,
      reason: `refers to something that is not there, or is still needed: ${detail ?? message}`,
    }
  if (sqlState === '23505')
    return { kind: table, record: null, field: 'id', reason: `is there already: ${detail ?? message}` }
  if (sqlState === '23502') return { kind: table, record: null, field: column, reason: 'must be given' }
  if (sqlState === '23514')
    return {
      kind: table,
      record: null,
      field: fieldOf(constraint, table),
      reason: 'is outside what this field may hold',
    }
  if (sqlState === '22007' || sqlState === '22008')
    return { kind: table, record: null, field: column, reason: 'is not a date' }
  return null
}

/** The column that Postgres named a check after (`table_column_check`). */
function fieldOf(constraint: string, table: string | null): string | null {
  const prefix = `${table}_`
  if (!table || !constraint.startsWith(prefix)) return null
  const rest = constraint.slice(prefix.length)
  return rest.endsWith('_shape') || rest === 'shape' ? 'geom' : rest.replace(/_check\d*$/, '')
}
