import { AbsentRecord } from '../../geo/store/edit.ts'
import { faultOf } from '../../geo/store/fault.ts'
import type { DeskFault } from './door.ts'
import { isFull, NO_ROOM } from './noRoom.ts'
import { Refusal } from './refusal.ts'

/** What a thrown error means to the person; null where it is a bug, or the engine's end. */
export function deskFaultOf(error: unknown): DeskFault | null {
  if (error instanceof Refusal) return error.fault
  if (error instanceof DOMException && error.name === 'AbortError')
    return { kind: 'stopped', field: null, record: null, detail: 'stopped' }
  if (error instanceof AbsentRecord)
    return { kind: 'not found', field: null, record: error.record, detail: error.message }
  if (isFull(error)) return { kind: 'storage', field: null, record: null, detail: NO_ROOM }
  const fault = faultOf(error)
  if (!fault) return null
  const { field, record, reason, accept } = fault
  return { kind: 'constraint', field, record, detail: reason, ...(accept ? { accept } : {}) }
}
