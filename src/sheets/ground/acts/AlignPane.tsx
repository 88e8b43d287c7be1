import { useEffect, useState } from 'preact/hooks'
import { alignTo } from '../../../draw/ops/alignTo.ts'
import { motion } from '../../../draw/ops/moved.ts'
import { linesOf, placeGeometry } from '../../../draw/placeGeometry.ts'
import { showNumber } from '../../show/figures.ts'
import { takesAlong } from '../../state/drawChoices.ts'
import { closeAct, edgeTapped } from '../../state/drawing.ts'
import { keepEdits } from '../../state/keepEdits.ts'
import type { HeldThing } from '../../state/placed.ts'
import { askRiders } from '../../state/riders.ts'
import { Exact } from '../Exact.tsx'
import { KIND_WORD } from '../formFields.ts'
import type { Rider } from '../ridersOf.ts'
import { ActFrame } from './ActFrame.tsx'
import { farmPlane, usePreview } from './onMap.ts'
import { countWords } from './thingWords.ts'

/** Brings things alongside an edge that is tapped: parallel to it, and if asked at a distance and with ends level. */
export function AlignPane({ things }: { readonly things: readonly HeldThing[] }) {
  const plane = farmPlane()
  const [gapM, setGap] = useState<number | null>(null)
  const [endsLevel, setLevel] = useState(false)
  const [riders, setRiders] = useState<readonly Rider[] | null>(null)
  useEffect(() => {
    askRiders(things, 'move').then(setRiders, () => setRiders(null))
  }, [things])
  const edge = edgeTapped.value
  const corners = things.flatMap(({ geometry }) => linesOf(geometry, plane).flat())
  const how = edge && alignTo(corners, edge, { gapM, endsLevel })
  const along = (riders ?? []).filter(({ kind }) => takesAlong.value[kind])
  const moved = how
    ? [...things, ...along].map(({ kind, id, geometry }) => ({
        kind,
        id,
        geometry: placeGeometry(geometry, plane, motion(how)),
      }))
    : []
  usePreview(moved, false)
  const why =
    riders === null
      ? 'What stands there could not be read yet.'
      : edge && !how
        ? 'A single place has no direction to align.'
        : null
  const keep = async () => {
    if (moved.length === 0) return
    const edits = moved.map(({ kind, id, geometry }) => ({ do: 'change' as const, kind, id, to: { geom: geometry } }))
    const label = things.length === 1 ? `Align ${KIND_WORD[things[0]!.kind]}` : `Align ${things.length} things`
    if (await keepEdits(label, edits)) closeAct()
  }
  return (
    <ActFrame title={`Align ${countWords(things)}`} deed="Align" why={why} onDo={() => void keep()}>
      <p class="hint">
        {edge
          ? `Turned by ${showNumber(Math.abs(how?.turnDeg ?? 0), 1)}° to run along that edge. Tap another to choose it instead.`
          : 'Tap the edge of a neighbour, on the map, to run along it.'}
      </p>
      <div class="pen-typed">
        <Exact label="Distance from it" of="length" least={-1e-9} take={setGap} />
      </div>
      <label class="tick">
        <input type="checkbox" checked={endsLevel} onChange={(event) => setLevel(event.currentTarget.checked)} />
        Ends level with its nearer end
      </label>
      {along.length > 0 && (
        <p class="hint">
          {countWords(along)} {along.length === 1 ? 'goes' : 'go'} along.
        </p>
      )}
    </ActFrame>
  )
}
