import type { Drawn } from '../../draw/session.ts'
import { layDown, takeUp, tool } from '../state/drawing.ts'
import { closeWalk, openWalk, walking } from '../state/walking.ts'

const TOOLS: readonly { readonly what: Drawn; readonly words: string }[] = [
  { what: 'field', words: 'Field' },
  { what: 'bed', words: 'Bed' },
  { what: 'row', words: 'Row' },
  { what: 'tree', words: 'Tree' },
]

/** Under the map: what to draw. */
export function GroundStrip() {
  return (
    <fieldset class="strip-tools">
      <legend>Draw</legend>
      {TOOLS.map(({ what, words }) => (
        <ToolButton key={what} what={what} words={words} />
      ))}
      <WalkButton />
    </fieldset>
  )
}

function WalkButton() {
  const open = walking.value !== null
  return (
    <button type="button" aria-pressed={open} onClick={() => (open ? closeWalk() : void openWalk())}>
      Walk
    </button>
  )
}

export function ToolButton({ what, words }: { readonly what: Drawn; readonly words: string }) {
  const held = tool.value?.do === 'draw' && tool.value.what === what
  return (
    <button type="button" aria-pressed={held} onClick={() => (held ? layDown() : void takeUp({ do: 'draw', what }))}>
      {words}
    </button>
  )
}
