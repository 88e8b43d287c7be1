import { signal } from '@preact/signals'
import type { Drawn } from '../../draw/session.ts'
import { layDown, takeUp, tool } from '../state/drawing.ts'
import { placer } from '../state/placing.ts'
import { several } from '../state/several.ts'
import { systems } from '../state/systems.ts'
import { closeWalk, openWalk, walking } from '../state/walking.ts'

interface Offered {
  readonly what: Drawn
  readonly words: string
}
const TOOLS: readonly Offered[] = [
  { what: 'field', words: 'Field' },
  { what: 'bed', words: 'Bed' },
  { what: 'row', words: 'Row' },
  { what: 'tree', words: 'Tree' },
]
const SUPPORT: Offered = { what: 'support', words: 'Support' }
const MORE: readonly Offered[] = [
  { what: 'field rectangle', words: 'Right-angled field' },
  { what: 'bed outline', words: 'Bed by its outline' },
  { what: 'structure line', words: 'Fence, path or pipe' },
  { what: 'structure area', words: 'Shed or the like' },
  { what: 'structure point', words: 'Gate or post' },
  { what: 'observation', words: 'Observation' },
]
const moreShown = signal(false)

/** Under the map: what to draw, and below it what is drawn less often; measuring; selecting several. */
export function GroundStrip() {
  if (placer.value) return null
  return (
    <div class="ground-strip">
      {moreShown.value && (
        <fieldset class="strip-tools more-tools">
          <legend class="unseen">Draw less often</legend>
          {[...(systems.value.length > 0 ? [SUPPORT] : []), ...MORE].map((one) => (
            <ToolButton key={one.what} {...one} />
          ))}
        </fieldset>
      )}
      <fieldset class="strip-tools">
        <legend>Draw</legend>
        {TOOLS.map((one) => (
          <ToolButton key={one.what} {...one} />
        ))}
        <WalkButton />
        <button
          type="button"
          aria-expanded={moreShown.value}
          onClick={() => {
            moreShown.value = !moreShown.value
          }}
        >
          {moreShown.value ? 'Less' : 'More'}
        </button>
      </fieldset>
      <fieldset class="strip-tools">
        <legend class="unseen">Without drawing</legend>
        <SelectButton />
        <ToolButton what="measure" words="Measure" />
      </fieldset>
    </div>
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

export function ToolButton({ what, words }: Offered) {
  const held = tool.value?.do === 'draw' && tool.value.what === what
  return (
    <button type="button" aria-pressed={held} onClick={() => (held ? layDown() : void takeUp({ do: 'draw', what }))}>
      {words}
    </button>
  )
}

function SelectButton() {
  const held = tool.value?.do === 'select'
  return (
    <button type="button" aria-pressed={held} onClick={() => (held ? layDown() : void takeUp({ do: 'select' }))}>
      Several{several.value.length > 0 ? ` (${several.value.length})` : ''}
    </button>
  )
}
