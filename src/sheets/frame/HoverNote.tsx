import { hover } from '../state/mapHandle.ts'
import { sheet } from '../state/where.ts'
import { yieldHere } from '../yield/yieldHere.ts'

/** What is under the pointer: its name, and on the Yield sheet the bed with the value there. */
export function HoverNote() {
  const told = hover.value
  if (!told) return null
  const here = sheet.value === 'yield' ? yieldHere.value : null
  const name = here?.bed ?? told.name
  if (name === null) return null
  const [x, y] = told.pixel
  return (
    <div class="hover-note" aria-hidden="true" style={{ translate: `${x + 14}px ${y + 14}px` }}>
      <p class="hover-name">{name}</p>
      {here?.words.map((line) => (
        <p key={line}>{line}</p>
      ))}
    </div>
  )
}
