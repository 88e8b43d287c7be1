import { useEffect, useState } from 'preact/hooks'
import { carry } from '../../../draw/ops/carry.ts'
import { offsetArea, offsetLine } from '../../../draw/ops/offset.ts'
import { placeGeometry } from '../../../draw/placeGeometry.ts'
import { problemOf } from '../../../draw/problemOf.ts'
import type { PlacedThing } from '../../../draw/session.ts'
import { type EditGeometry, geometryOf, isArea, type Shape, shapeOf } from '../../../draw/shape.ts'
import { Choice } from '../../../ui/Choice.tsx'
import { takesAlong } from '../../state/drawChoices.ts'
import { closeAct } from '../../state/drawing.ts'
import { keepEdits } from '../../state/keepEdits.ts'
import { newId } from '../../state/newId.ts'
import type { HeldThing } from '../../state/placed.ts'
import { askRiders } from '../../state/riders.ts'
import { Exact } from '../Exact.tsx'
import { KIND_WORD } from '../formFields.ts'
import type { Rider } from '../ridersOf.ts'
import { ActFrame } from './ActFrame.tsx'
import { copyOf } from './copyOf.ts'
import { farmPlane, usePreview } from './onMap.ts'
import { compassOf } from './thingWords.ts'

/** A parallel of a line as a new record; or an area larger or smaller by so much on every side. */
export function OffsetPane({ things }: { readonly things: readonly HeldThing[] }) {
  const plane = farmPlane()
  const thing = things[0]!
  const shape = shapeOf(thing.geometry as EditGeometry, plane)
  const area = isArea(shape)
  const [offM, setOff] = useState<number | null>(null)
  const [way, setWay] = useState<1 | -1>(1)
  const [riders, setRiders] = useState<readonly Rider[] | null>(area ? null : [])
  useEffect(() => {
    if (area) askRiders(things, 'reshape').then(setRiders, () => setRiders(null))
  }, [things])

  const made = offM === null ? null : area ? offsetArea(shape, offM * way) : lineAt(shape, offM * way)
  const pieces = made?.type === 'MultiPolygon' && thing.kind === 'beds'
  const why =
    offM === null
      ? null
      : riders === null
        ? 'What stands in the bed could not be read yet.'
        : made === null
          ? area
            ? 'Nothing would be left of it.'
            : 'At that distance a stretch of the line would vanish or turn round.'
          : pieces
            ? 'It would come apart, and a bed is in one piece.'
            : problemOf(made) && 'Its outline would cross itself.'
  const geometry = made && !why ? geometryOf(made, plane) : null
  const along = geometry && made && area ? taken(riders ?? [], shape, made) : []
  usePreview(geometry ? [{ ...thing, geometry }, ...along] : [], false)

  const keep = async () => {
    if (!geometry) return
    const word = KIND_WORD[thing.kind]
    const edits = area
      ? [{ ...thing, geometry }, ...along].map((one) => ({
          do: 'change' as const,
          kind: one.kind,
          id: one.id,
          to: { geom: one.geometry },
        }))
      : [
          copyOf(thing.kind, thing.record, newId(), {
            geom: geometry,
            ...('side' in thing.record ? { side: null } : {}),
          }),
        ]
    const label = area ? `${way === 1 ? 'Widen' : 'Narrow'} ${word}` : `Draw a parallel of ${word}`
    if (await keepEdits(label, edits)) closeAct()
  }
  const sides = area ? ['outward', 'inward'] : sideWords(shape)
  return (
    <ActFrame
      title={area ? `Widen or narrow a ${KIND_WORD[thing.kind]}` : `A parallel of a ${KIND_WORD[thing.kind]}`}
      deed={area ? 'Change it' : 'Draw it'}
      why={offM === null ? null : why}
      onDo={() => void keep()}
    >
      <div class="pen-typed">
        <Exact label={area ? 'By, on every side' : 'Away'} of="length" take={setOff} />
      </div>
      <Choice
        label="Side"
        value={way === 1 ? 'first' : 'second'}
        onChange={(to) => setWay(to === 'first' ? 1 : -1)}
        options={[
          { value: 'first', words: sides[0]! },
          { value: 'second', words: sides[1]! },
        ]}
      />
      <p class="hint">
        {area
          ? riders && riders.length > 0
            ? 'Its rows reach as far to its ends as before, and keep their share of its width.'
            : 'Every side moves by so much, square to itself.'
          : 'The line itself stays; a new one is drawn beside it.'}
      </p>
    </ActFrame>
  )

  function taken(standing: readonly Rider[], before: Shape, after: Shape): readonly PlacedThing[] {
    const to = carry(before.parts[0] ?? [], after.parts[0] ?? [])
    return standing
      .filter(({ kind }) => takesAlong.value[kind])
      .map((rider) => ({ ...rider, geometry: placeGeometry(rider.geometry, plane, to) }))
  }
}

function lineAt(shape: Shape, leftM: number): Shape | null {
  const off = offsetLine(shape.parts[0] ?? [], leftM)
  return off && { type: 'LineString', parts: [off] }
}

/** Where the left and the right of a line are, by compass. */
function sideWords(shape: Shape): readonly [string, string] {
  const line = shape.parts[0] ?? []
  const [a, b] = [line[0] ?? [0, 0], line.at(-1) ?? [0, 1]]
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]]
  return [`to the ${compassOf([-dy, dx])}`, `to the ${compassOf([dy, -dx])}`]
}
