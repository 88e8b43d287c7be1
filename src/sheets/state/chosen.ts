import { signal } from '@preact/signals'
import type { Card, DeskFault } from '../../desk/door.ts'
import type { Thing } from '../../map/farmMap.ts'
import { ask } from './door.ts'
import { showPane } from './pane.ts'
import { forgetSeveral, selecting, takeIn } from './several.ts'
import { on, sheet } from './where.ts'

/** What is tapped, and its card once the desk has told it. */
export const chosen = signal<Thing | null>(null)
export const card = signal<Card | null>(null)
export const cardFault = signal<DeskFault | null>(null)

/** Opens the card of a thing; while several are being selected, takes it in or leaves it out. */
export async function choose(thing: Thing | null): Promise<void> {
  if (thing && selecting.value) return takeIn([thing], 'toggle')
  forgetSeveral()
  chosen.value = thing
  if (!thing) {
    closeCard()
    showPane(sheet.value === 'picking' ? 'card' : 'map')
    return
  }
  showPane('card')
  await askCard()
}

/** Closes the card, whatever part of the page a phone shows. */
export function closeCard(): void {
  chosen.value = null
  card.value = null
  cardFault.value = null
}

/** Asks again for the card that is open: after a step, or on another day. A record that is gone closes it. */
export async function askCard(): Promise<void> {
  const thing = chosen.value
  if (!thing) return
  const reply = await ask('seeCard', { ...thing, on: on.value })
  if (chosen.value !== thing) return
  if (!reply.ok && reply.fault.kind === 'not found') {
    chosen.value = null
    card.value = null
    return
  }
  card.value = reply.ok ? reply.value : null
  cardFault.value = reply.ok ? null : reply.fault
}
