import { choose, chosen } from '../state/chosen.ts'
import { type Pane, pane, showPane } from '../state/pane.ts'
import { sheet } from '../state/where.ts'

const PANES: readonly { readonly name: Pane; readonly words: string }[] = [
  { name: 'map', words: 'Map' },
  { name: 'table', words: 'Table' },
  { name: 'card', words: 'Card' },
]

/** On a phone, what fills the screen. */
export function PhoneBar() {
  return (
    <nav class="phone-bar" aria-label="Shown">
      {PANES.map(({ name, words }) => (
        <button
          key={name}
          type="button"
          {...(pane.value === name && { 'aria-current': 'true' as const })}
          onClick={() => {
            // Where a pick's card stands in the way of the entry, it is shut.
            if (name === 'card' && sheet.value === 'picking' && chosen.value) void choose(null)
            else showPane(name)
          }}
        >
          {name === 'card' && sheet.value === 'picking' ? 'Pick' : words}
        </button>
      ))}
    </nav>
  )
}
