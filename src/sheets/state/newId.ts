import { uuid7 } from '../../../geo/model/uuid.ts'

/** An id for a record made on this page. */
export function newId(): string {
  return uuid7(Date.now(), crypto.getRandomValues(new Uint8Array(10)))
}
