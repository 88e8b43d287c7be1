import { signal } from '@preact/signals'
import type { DeskFault } from '../../desk/door.ts'
import { layers } from './shown.ts'
import { doEdits, type Edits } from './steps.ts'

/** Edits that the database would not keep, with what would make them kept all the same. */
export const editFault = signal<{ readonly fault: DeskFault; readonly again: (() => void) | null } | null>(null)

/**
 * Does edits as one step. Where they are refused, the reason is told, and where that can be accepted, they can be asked
 * again with it accepted on the record that it concerns. True when they are kept; `after` is run then, however often asked.
 */
export async function keepEdits(
  label: string,
  edits: Edits,
  after: (ok: boolean) => void = () => undefined,
): Promise<boolean> {
  editFault.value = null
  const reply = await doEdits(label, edits)
  if (!reply.ok) {
    const { fault } = reply
    const more = fault.accept && fault.record !== null ? accepting(edits, fault.record, fault.accept) : null
    editFault.value = { fault, again: more ? () => void keepEdits(label, more, after) : null }
  }
  after(reply.ok)
  return reply.ok
}

/** The same edits with fields set on the record that a fault is about. */
function accepting(edits: Edits, id: string, accept: Readonly<Record<string, unknown>>): Edits {
  let found = false
  const out = edits.map((edit) => {
    if (edit.do === 'add' && edit.record.id === id) {
      found = true
      return { ...edit, record: { ...edit.record, ...accept } }
    }
    if (edit.do === 'change' && edit.id === id && (edit.kind === 'beds' || edit.kind === 'rows')) {
      found = true
      return { ...edit, to: { ...edit.to, ...accept } }
    }
    return edit
  })
  if (found) return out
  const isBed = layers.value?.beds.features.some(({ properties }) => properties.id === id)
  return [...out, { do: 'change', kind: isBed ? 'beds' : 'rows', id, to: accept }]
}
