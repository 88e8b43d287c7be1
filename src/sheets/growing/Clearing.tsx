import { useState } from 'preact/hooks'
import type { Card } from '../../desk/door.ts'
import { Dialog } from '../../ui/Dialog.tsx'
import { Entry } from '../../ui/Entry.tsx'
import { cardTold, doEdits } from '../state/steps.ts'
import { on } from '../state/where.ts'

/** Asks for the day that a planting is cleared; without a day it stands on. */
export function Clearing({ card, onClose }: { readonly card: Card; readonly onClose: () => void }) {
  const [day, setDay] = useState(typeof card.record.cleared === 'string' ? card.record.cleared : on.value)
  const [fault, setFault] = useState<string | null>(null)
  const keep = async (cleared: string | null) => {
    if (cleared === '') {
      setFault('A day is needed.')
      return
    }
    const label = cleared === null ? `Leave ${card.title} standing` : `Clear ${card.title}`
    const reply = await doEdits(label, [{ do: 'change', kind: 'plantings', id: card.id, to: { cleared } }])
    if (!reply.ok) {
      setFault(reply.fault.detail)
      return
    }
    await cardTold()
    onClose()
  }
  return (
    <Dialog title={`Clear ${card.title}`} onClose={onClose}>
      <form
        onSubmit={(event) => {
          event.preventDefault()
          void keep(day)
        }}
      >
        <Entry label="Cleared on" hint="It stands until the day before." fault={fault}>
          {(names) => (
            <input {...names} type="date" value={day} onInput={(event) => setDay(event.currentTarget.value)} />
          )}
        </Entry>
        <p class="deeds">
          <button type="submit" class="first-deed">
            Keep the day
          </button>
          {card.record.cleared !== null && (
            <button type="button" onClick={() => void keep(null)}>
              It still stands
            </button>
          )}
        </p>
      </form>
    </Dialog>
  )
}
