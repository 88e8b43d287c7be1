import { planeAbout } from '../../../geo/plane/plane.ts'
import { isRightAngled } from '../../draw/ops/rightAngled.ts'
import type { Tool } from '../../draw/session.ts'
import { shapeOf } from '../../draw/shape.ts'
import { SNAPS } from '../../draw/snap.ts'
import { allSnap, keepsSquare, snaps, takesAlong } from '../state/drawChoices.ts'
import { session } from '../state/drawing.ts'
import { openFarm } from '../state/farm.ts'
import { riders } from '../state/riders.ts'
import { SNAP_LABEL } from './penWords.ts'

/** Which of the things about the pointer is held to. */
export function SnapChoices() {
  return (
    <details class="pen-choices">
      <summary>{allSnap() ? 'Held to everything near' : 'Held to some things near'}</summary>
      {SNAPS.map((name) => (
        <label key={name} class="tick">
          <input
            type="checkbox"
            checked={snaps.value[name]}
            onChange={(event) => {
              snaps.value = { ...snaps.value, [name]: event.currentTarget.checked }
              session.value?.refresh()
            }}
          />
          {SNAP_LABEL[name]}
        </label>
      ))}
    </details>
  )
}

/** Whether a right-angled shape stays right-angled while it is reshaped. */
export function SquareChoice({ held }: { readonly held: Tool }) {
  const origin = openFarm.value?.origin
  if (held.do !== 'edit' || !origin || !isRightAngled(shapeOf(held.geometry, planeAbout(origin)))) return null
  return (
    <label class="tick">
      <input
        type="checkbox"
        checked={keepsSquare.value}
        onChange={(event) => {
          keepsSquare.value = event.currentTarget.checked
        }}
      />
      Keep its right angles
    </label>
  )
}

const WORDS = {
  beds: ['bed', 'beds'],
  rows: ['row', 'rows'],
  supports: ['support', 'supports'],
  trees: ['tree', 'trees'],
} as const

/** What stands in a bed and goes along with it, or is left where it is. */
export function AlongChoices({ held }: { readonly held: Tool }) {
  const kinds = (['beds', 'rows', 'supports', 'trees'] as const).filter((one) =>
    riders.value.some(({ kind }) => kind === one),
  )
  if (kinds.length === 0) return null
  return (
    <fieldset class="pen-along">
      <legend>Goes along</legend>
      {kinds.map((kind) => {
        const count = riders.value.filter((rider) => rider.kind === kind).length
        return (
          <label key={kind} class="tick">
            <input
              type="checkbox"
              checked={takesAlong.value[kind]}
              onChange={(event) => {
                takesAlong.value = { ...takesAlong.value, [kind]: event.currentTarget.checked }
                session.value?.refresh()
              }}
            />
            {count} {WORDS[kind][count === 1 ? 0 : 1]}
          </label>
        )
      })}
      {held.do === 'edit' && kinds.includes('rows') && takesAlong.value.rows && (
        <p class="hint">
          What grows stays where it is; a planting that a shorter row no longer holds ends where the row ends.
        </p>
      )}
    </fieldset>
  )
}
