import { useEffect, useState } from 'preact/hooks'
import type { Problem, Tool } from '../../draw/session.ts'
import { FORM } from '../../draw/sketch.ts'
import { told as inWords, landFigure, lengthFigure } from '../show/figures.ts'
import { layDown, live, session } from '../state/drawing.ts'
import { units } from '../state/farm.ts'
import { Exact } from './Exact.tsx'
import { AlongChoices, SnapChoices, SquareChoice } from './PenChoices.tsx'
import { figuresOf, heldWords, hintOf, PROBLEM, titleOf } from './penWords.ts'

/** While something is drawn: its measures, large, as they will be kept; what can be typed; and how to be done. */
export function Pen({ tool: held }: { readonly tool: Tool }) {
  const told = live.value
  const [problem, setProblem] = useState<Problem | null>(null)
  useEffect(() => setProblem(null), [told?.corners, told?.areaM2, told?.lengthM])
  const shown =
    told?.problem && told.problem !== 'too few corners' && told.problem !== 'cuts nothing' ? told.problem : problem
  const measures = held.do === 'draw' && held.what === 'measure'
  return (
    <section class="pen" aria-label="On the pen">
      <h2>{titleOf(held)}</h2>
      <div class="pen-figures" aria-live="off">
        {figuresOf(held, told).map(([what, figure]) => (
          <p key={what}>
            <span class="pen-value">
              {figure.value}
              <span class="figure-unit"> {figure.unit}</span>
            </span>
            <span class="pen-what">{what}</span>
          </p>
        ))}
      </div>
      {measures && <Sums />}
      <p class={shown ? 'pen-hint amiss' : 'pen-hint'} role={shown ? 'alert' : undefined}>
        {shown ? PROBLEM[shown] : (heldWords(told) ?? hintOf(held, told))}
      </p>
      {session.value && <Typed held={held} />}
      <AlongChoices held={held} />
      <SquareChoice held={held} />
      <SnapChoices />
      <p class="deeds">
        {measures ? (
          <>
            <button type="button" class="first-deed" onClick={() => session.value?.finish()}>
              Next line
            </button>
            <button type="button" onClick={() => session.value?.takeBack()}>
              Back one
            </button>
            <button type="button" onClick={() => session.value?.clear()}>
              Clear
            </button>
            <button type="button" onClick={layDown}>
              Leave
            </button>
          </>
        ) : (
          <>
            {session.value && (
              <>
                <button type="button" class="first-deed" onClick={() => setProblem(session.value?.finish() ?? null)}>
                  Done
                </button>
                <button type="button" onClick={() => session.value?.takeBack()}>
                  Back one
                </button>
                {told?.canDrop && (
                  <button type="button" title="Delete" onClick={() => session.value?.dropCorner()}>
                    Remove corner
                  </button>
                )}
              </>
            )}
            <button type="button" onClick={layDown}>
              Give up
            </button>
          </>
        )}
      </p>
    </section>
  )
}

/** What was measured so far, in all. */
function Sums() {
  const sums = live.value?.sums
  if (!sums || sums.lines + sums.outlines === 0) return null
  const parts = [
    ...(sums.lines > 0
      ? [`${sums.lines} ${sums.lines === 1 ? 'line' : 'lines'}, ${inWords(lengthFigure(sums.lengthM, units.value))}`]
      : []),
    ...(sums.outlines > 0
      ? [
          `${sums.outlines} ${sums.outlines === 1 ? 'outline' : 'outlines'}, ${inWords(landFigure(sums.areaM2, units.value))}`,
        ]
      : []),
  ]
  return <p class="pen-sums">Measured: {parts.join('; ')}.</p>
}

/** What can be typed for what is on the pen. */
function Typed({ held }: { readonly held: Tool }) {
  const put = () => session.value?.putCorner()
  const corners = live.value?.corners
  const type = (what: Parameters<NonNullable<typeof session.value>['type']>[0]) => (value: number | null) =>
    session.value?.type(what, value)
  if (held.do === 'move')
    return (
      <div class="pen-typed">
        <Exact label="Turn" of="degrees" take={type('turnDeg')} />
        <Exact label="Move" of="length" take={type('distanceM')} />
        <Exact label="Toward" of="degrees" take={type('bearingDeg')} />
      </div>
    )
  if (held.do === 'edit' && held.geometry.type !== 'Point')
    return (
      <div class="pen-typed">
        <Exact label="Side before" of="length" until={live.value?.at?.join()} take={type('lengthM')} />
        <Exact label="Its bearing" of="degrees" until={live.value?.at?.join()} take={type('bearingDeg')} />
      </div>
    )
  if (held.do !== 'draw' || FORM[held.what] === 'point') return null
  const rectangle = FORM[held.what] === 'rectangle'
  return (
    <div class="pen-typed">
      <Exact
        label={rectangle ? 'Length' : 'This side'}
        of="length"
        until={corners}
        take={type('lengthM')}
        onEnter={put}
      />
      <Exact label="Bearing" of="degrees" until={corners} take={type('bearingDeg')} onEnter={put} />
      {rectangle && <Exact label="Width" of="length" take={type('widthM')} onEnter={put} />}
      {(rectangle || FORM[held.what] === 'area') && (
        <Exact label="Area" of="area" until={rectangle ? null : corners} take={type('areaM2')} onEnter={put} />
      )}
    </div>
  )
}
