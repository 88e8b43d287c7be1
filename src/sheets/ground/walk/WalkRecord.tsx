import { useEffect, useState } from 'preact/hooks'
import { leftOut } from '../../../../geo/track/readWalk.ts'
import { lengthFigure, showCount, told } from '../../show/figures.ts'
import { units } from '../../state/farm.ts'
import { does, lastFixMs, pauseWalk, screenKept, walkFault } from '../../state/walking.ts'
import { walkNow } from './walkNow.ts'
import { accuracyFigure, sureWords } from './walkWords.ts'

/** Silence longer than this is told. */
const SILENCE_S = 10

/** While a walk is recorded: how sure the position is, the corner being held, and what to do next. */
export function WalkRecord() {
  const walk = walkNow.value
  const silentS = useSilence()
  const last = walk.parts.at(-1)
  const accuracyM = last?.fixes.at(-1)?.accuracyM ?? null
  const corners = walk.parts.filter((part) => part.is === 'held' && part.corner)
  const out = leftOut(walk)
  const held = last?.is === 'held' && walk.holding ? last.corner : null
  return (
    <>
      <div class="walk-sure" role="status" aria-live="off">
        {accuracyM === null ? (
          <p class="figure-value">–</p>
        ) : (
          <p class="figure-value">
            ± {accuracyFigure(accuracyM, units.value).value}
            <span class="figure-unit"> {accuracyFigure(accuracyM, units.value).unit}</span>
          </p>
        )}
        <p class={accuracyM !== null && accuracyM > 10 ? 'amiss' : 'figure-grounds'}>
          {accuracyM === null ? 'Waiting for the first position' : `The position is ${sureWords(accuracyM)}.`}
        </p>
      </div>
      {silentS > SILENCE_S && walkFault.value === null && (
        <p class="fault" role="alert">
          No new position for {silentS} seconds.
        </p>
      )}
      {walkFault.value && (
        <p class="fault" role="alert">
          {walkFault.value}
        </p>
      )}
      <p role="status">
        {walk.holding
          ? held
            ? `Corner ${corners.length}: the mean of ${showCount(held.used)} positions, ${told(lengthFigure(held.spreadM, units.value))} apart on average${held.leftOut > 0 ? `; ${held.leftOut} left out` : ''}. Half a minute steadies it.`
            : 'Stand still at the corner.'
          : `${showCount(corners.length)} ${corners.length === 1 ? 'corner' : 'corners'} held, ${showCount(walk.fixes)} positions${out > 0 ? `, ${showCount(out)} left out` : ''}.`}
      </p>
      <p class="deeds walk-deeds">
        <button type="button" class="first-deed" onClick={() => void does({ does: walk.holding ? 'go on' : 'hold' })}>
          {walk.holding ? 'Go on' : 'Hold here'}
        </button>
        <button type="button" onClick={pauseWalk}>
          Stop
        </button>
        <button type="button" disabled={corners.length === 0} onClick={() => void does({ does: 'take back' })}>
          Take the last corner back
        </button>
      </p>
      <p class="hint">
        At each corner stop, choose Hold here and stand still; then Go on to the next.{' '}
        {screenKept.value
          ? 'The screen is kept on while you walk.'
          : 'This browser can’t keep the screen on: don’t let it go dark, for then no positions come.'}{' '}
        All of it is kept as you walk.
      </p>
    </>
  )
}

/** Seconds since the last position, told while none comes. */
function useSilence(): number {
  const [seconds, setSeconds] = useState(0)
  useEffect(() => {
    const since = performance.now()
    const timer = setInterval(
      () => setSeconds(Math.round((performance.now() - (lastFixMs.value ?? since)) / 1000)),
      1000,
    )
    return () => clearInterval(timer)
  }, [])
  return seconds
}
