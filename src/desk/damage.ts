import { DatabaseError } from '../../geo/store/database.ts'

/** Postgres' classes of errors that tell of damage: system errors (58), a page or index that does not hold (XX001, XX002). */
const DAMAGED = /^(58|XX00[12])/

/** True for an error which says that the database's own files are damaged. */
export function isDamage(error: unknown): error is DatabaseError {
  return error instanceof DatabaseError && DAMAGED.test(error.sqlState)
}
