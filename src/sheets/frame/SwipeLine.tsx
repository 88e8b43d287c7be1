import { useEffect, useRef } from 'preact/hooks'
import { showDay } from '../show/dates.ts'
import type { ShownPhoto } from '../state/photos.ts'
import { compared, swipeAt } from '../state/swipe.ts'

const STEP = 0.02
const LEAP = 0.1

const within = (at: number) => Math.min(1, Math.max(0, at))

const KEYS: Readonly<Record<string, (at: number) => number>> = {
  ArrowLeft: (at) => at - STEP,
  ArrowDown: (at) => at - STEP,
  ArrowRight: (at) => at + STEP,
  ArrowUp: (at) => at + STEP,
  PageDown: (at) => at - LEAP,
  PageUp: (at) => at + LEAP,
  Home: () => 0,
  End: () => 1,
}

const sideTitle = ({ photo }: ShownPhoto): string => (photo.on ? showDay(photo.on) : (photo.name ?? photo.file))

/** The line between two photos on the map: dragged by mouse or finger, or moved by the keys. */
export function SwipeLine() {
  const now = compared.value
  if (!now) return null
  return <Line left={now.left} right={now.right} />
}

function Line({ left, right }: { readonly left: ShownPhoto; readonly right: ShownPhoto }) {
  const line = useRef<HTMLDivElement>(null)
  const at = swipeAt.value
  useEffect(() => line.current?.style.setProperty('--at', `${at * 100}%`), [at])
  const moveTo = (event: PointerEvent) => {
    const ground = line.current!.parentElement!.getBoundingClientRect()
    swipeAt.value = within((event.clientX - ground.left) / ground.width)
  }
  const percent = Math.round(at * 100)
  return (
    <div class="swipe" ref={line}>
      <span class="swipe-side swipe-left" aria-hidden="true">
        {sideTitle(left)}
      </span>
      <span class="swipe-side swipe-right" aria-hidden="true">
        {sideTitle(right)}
      </span>
      <div
        class="swipe-grip"
        role="slider"
        tabIndex={0}
        aria-label={`Line between ${sideTitle(left)} on the left and ${sideTitle(right)} on the right`}
        aria-valuemin={0}
        aria-valuemax={100}
        aria-valuenow={percent}
        aria-valuetext={`${percent} % of the map shows ${sideTitle(left)}`}
        onPointerDown={(event) => {
          event.currentTarget.setPointerCapture(event.pointerId)
          event.currentTarget.focus()
          event.preventDefault()
        }}
        onPointerMove={(event) => {
          if (event.currentTarget.hasPointerCapture(event.pointerId)) moveTo(event)
        }}
        onKeyDown={(event) => {
          const to = KEYS[event.key]
          if (!to) return
          event.preventDefault()
          event.stopPropagation()
          swipeAt.value = within(to(at))
        }}
      />
    </div>
  )
}
