import { hover } from '../state/mapHandle.ts'
import { sheet } from '../state/where.ts'
import { hoverWords } from '../yield/hoverWords.ts'

/** What is under the pointer: its name, and on the Yield sheet the value there. */
export function HoverNote() {
  const told = hover.value
  if (!told) return null
  const words = sheet.value === 'yield' ? hoverWords.value : []
  if (told.name === null && words.length === 0) return null
  const [x, y] = told.pixel
  return (
    <div class="hover-note" aria-hidden="true" style={{ translate: `${x + 14}px ${y + 14}px` }}>
      {told.name !== null && <p class="hover-name">{told.name}</p>}
      {words.map((line) => (
        <p key={line}>{line}</p>
      ))}
    </div>
  )
}
