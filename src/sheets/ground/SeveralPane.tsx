import type { Thing } from '../../map/farmMap.ts'
import type { Act } from '../state/act.ts'
import { layDown, startAct, takeUp, tool } from '../state/drawing.ts'
import { editFault } from '../state/keepEdits.ts'
import { holdThings } from '../state/placed.ts'
import { boxing, forgetSeveral, several } from '../state/several.ts'
import { countWords } from './acts/thingWords.ts'
import { EditFault } from './EditFault.tsx'

/** What is selected together, and what can be done with it: each as one step. */
export function SeveralPane() {
  const things = several.value
  const selecting = tool.value?.do === 'select'
  const canMerge = mergeable(things).length > 1
  return (
    <section class="several" aria-label="Selected">
      <div class="card-head">
        <h2>{things.length === 0 ? 'Select several' : countWords(things)}</h2>
        <button type="button" class="quiet" onClick={leave}>
          Close<span class="unseen"> the selection</span>
        </button>
      </div>
      <p class="hint">
        {selecting
          ? 'Tap things to take them in or leave them out again. With the mouse, drag a box over them.'
          : 'Shift and a tap takes one more in, or leaves it out again.'}
      </p>
      <p class="deeds">
        {!selecting && (
          <button type="button" onClick={() => void takeUp({ do: 'select' })}>
            Select more
          </button>
        )}
        {selecting && (
          <label class="tick tick-deed">
            <input
              type="checkbox"
              checked={boxing.value}
              onChange={(event) => {
                boxing.value = event.currentTarget.checked
              }}
            />
            A finger draws a box
          </label>
        )}
      </p>
      <EditFault />
      <p class="deeds">
        <button type="button" class="first-deed" disabled={things.length === 0} onClick={() => void move()}>
          Move or turn
        </button>
        <button type="button" disabled={things.length === 0} onClick={() => void start('alongside')}>
          Copy alongside
        </button>
        <button type="button" disabled={things.length === 0} onClick={() => void start('align')}>
          Align
        </button>
        <button type="button" disabled={!canMerge} onClick={() => void start('merge')}>
          Merge
        </button>
        <button
          type="button"
          disabled={things.length === 0}
          onClick={() => startAct({ do: 'remove', things: several.value })}
        >
          Remove
        </button>
      </p>
    </section>
  )
}

/** What of a selection can become one: its beds, else its fields. */
function mergeable<T extends Thing>(things: readonly T[]): readonly T[] {
  const beds = things.filter(({ kind }) => kind === 'beds')
  return beds.length > 0 ? beds : things.filter(({ kind }) => kind === 'fields')
}

function leave(): void {
  forgetSeveral()
  layDown()
}

async function start(what: Extract<Act['do'], 'alongside' | 'align' | 'merge'>): Promise<void> {
  const all = await held()
  const things = what === 'merge' ? mergeable(all) : all
  if (things.length > 0) startAct({ do: what, things })
}

async function move(): Promise<void> {
  const things = await held()
  if (things.length > 0) await takeUp({ do: 'move', things })
}

/** The things selected, with their records; told where they can't be read. */
async function held() {
  try {
    return await holdThings(several.value)
  } catch (error) {
    const detail = error instanceof Error ? error.message : String(error)
    editFault.value = { fault: { kind: 'not found', field: null, record: null, detail }, again: null }
    return []
  }
}
