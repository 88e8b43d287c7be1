import { useEffect } from 'preact/hooks'
import type { Card } from '../../desk/door.ts'
import { askWarnings, warnings } from '../state/warnings.ts'
import { on } from '../state/where.ts'
import { oncePerPair } from './oncePerPair.ts'
import { WarningList } from './WarningList.tsx'

/** On the card of a planting or a bed: what to look at again of it. */
export function CardWarnings({ card }: { readonly card: Card }) {
  useEffect(() => {
    if (warnings.value === null) void askWarnings(on.value)
  }, [])
  const all = warnings.value ?? []
  const of =
    card.kind === 'beds'
      ? oncePerPair(all.filter(({ bed }) => bed === card.id))
      : all.filter(({ planting }) => planting === card.id)
  if (of.length === 0) return null
  return (
    <section aria-label="To look at again">
      <h3>To look at again</h3>
      <WarningList of={of} />
    </section>
  )
}
