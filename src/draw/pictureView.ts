import { arrowStep } from './crosshair.ts'
import { type Mark, makeMarks } from './marks.ts'
import type { Pixel } from './overlay.ts'

/** A spot of the picture in pixels of its full size, from its upper left corner. */
export type Spot = readonly [col: number, row: number]

export interface SpotMark extends Omit<Mark, 'at'> {
  readonly at: Spot
}

export interface PictureView {
  show(marks: readonly SpotMark[]): void
  /** The whole picture in sight. */
  fit(): void
  zoomBy(factor: number): void
  remove(): void
}

export interface PictureShown {
  readonly image: ImageBitmap
  /** Size that spots are counted in; the image may be a smaller copy. */
  readonly widthPx: number
  readonly heightPx: number
}

const TAP_PX = { mouse: 4, touch: 12 } as const
const WHEEL_STEP = 1.0015
const KEY_STEP = 1.5
/** A pixel of the picture is not drawn larger than this on the screen. */
const LARGEST = 24

/**
 * A picture to be looked at closely in an element: dragged, zoomed by wheel, two fingers or plus and minus, moved by
 * arrow keys. A tap, or Enter for the spot in the middle, marks a spot.
 */
export function showPicture(
  container: HTMLElement,
  { image, widthPx, heightPx }: PictureShown,
  hear: { tap(at: Spot): void; choose(id: string): void; move(id: string, to: Spot): void; remove(id: string): void },
): PictureView {
  const canvas = document.createElement('canvas')
  canvas.tabIndex = 0
  canvas.setAttribute('role', 'application')
  canvas.setAttribute(
    'aria-label',
    'The picture. Arrow keys move it, plus and minus zoom, Enter marks the spot in its middle.',
  )
  container.append(canvas)
  const stop = new AbortController()
  const options = { signal: stop.signal }
  /** Screen pixel = scale · spot + shift. */
  let view = { scale: 1, x: 0, y: 0 }
  let isFitted = true
  let shown: readonly SpotMark[] = []

  const spotAt = ([x, y]: Pixel): Spot => [(x - view.x) / view.scale, (y - view.y) / view.scale]
  const within = ([col, row]: Spot): Spot => [Math.min(widthPx, Math.max(0, col)), Math.min(heightPx, Math.max(0, row))]
  const marks = makeMarks(container, 'in the picture', { ...hear, move: (id, to) => hear.move(id, within(spotAt(to))) })
  const tapAt = (at: Pixel) => {
    const [col, row] = spotAt(at)
    if (col >= 0 && row >= 0 && col <= widthPx && row <= heightPx) hear.tap([col, row])
  }

  let asked = false
  const paint = () => {
    marks.show(
      shown.map((mark) => ({
        ...mark,
        at: [view.scale * mark.at[0] + view.x, view.scale * mark.at[1] + view.y] as const,
      })),
    )
    if (asked) return
    asked = true
    requestAnimationFrame(() => {
      asked = false
      const ratio = devicePixelRatio
      const context = canvas.getContext('2d')
      if (!context) return
      context.setTransform(1, 0, 0, 1, 0, 0)
      context.clearRect(0, 0, canvas.width, canvas.height)
      context.setTransform(ratio, 0, 0, ratio, 0, 0)
      context.imageSmoothingEnabled = (view.scale * widthPx) / image.width < 3
      context.drawImage(image, view.x, view.y, view.scale * widthPx, view.scale * heightPx)
    })
  }
  const fitScale = () => Math.min(canvas.clientWidth / widthPx, canvas.clientHeight / heightPx)
  const seeAll = () => {
    const scale = fitScale()
    isFitted = true
    view = {
      scale,
      x: (canvas.clientWidth - scale * widthPx) / 2,
      y: (canvas.clientHeight - scale * heightPx) / 2,
    }
    paint()
  }
  /** Keeps some of the picture in sight. */
  const move = (x: number, y: number, scale = view.scale) => {
    const hold = (at: number, size: number, room: number) => Math.min(room - 40, Math.max(40 - size, at))
    isFitted = false
    view = {
      scale,
      x: hold(x, scale * widthPx, canvas.clientWidth),
      y: hold(y, scale * heightPx, canvas.clientHeight),
    }
    paint()
  }
  const zoomAt = ([x, y]: Pixel, factor: number) => {
    const scale = Math.min(Math.max(LARGEST, fitScale()), Math.max(fitScale() / 2, view.scale * factor))
    const by = scale / view.scale
    move(x - by * (x - view.x), y - by * (y - view.y), scale)
  }
  const middle = (): Pixel => [canvas.clientWidth / 2, canvas.clientHeight / 2]

  const sized = new ResizeObserver(() => {
    canvas.width = Math.round(canvas.clientWidth * devicePixelRatio)
    canvas.height = Math.round(canvas.clientHeight * devicePixelRatio)
    if (isFitted) seeAll()
    else paint()
  })
  sized.observe(canvas)

  const pressed = new Map<number, Pixel>()
  let isTap = false
  let began: Pixel = [0, 0]
  const pixel = (event: PointerEvent | WheelEvent): Pixel => {
    const box = canvas.getBoundingClientRect()
    return [event.clientX - box.left, event.clientY - box.top]
  }
  canvas.addEventListener(
    'pointerdown',
    (event) => {
      if (event.pointerType === 'mouse' && event.button !== 0) return
      canvas.setPointerCapture(event.pointerId)
      pressed.set(event.pointerId, pixel(event))
      isTap = pressed.size === 1
      began = pixel(event)
    },
    options,
  )
  canvas.addEventListener(
    'pointermove',
    (event) => {
      const from = pressed.get(event.pointerId)
      if (!from) return
      const to = pixel(event)
      const limit = TAP_PX[event.pointerType === 'mouse' ? 'mouse' : 'touch']
      if (isTap && Math.hypot(to[0] - began[0], to[1] - began[1]) <= limit) return
      isTap = false
      pressed.set(event.pointerId, to)
      const other = [...pressed].find(([id]) => id !== event.pointerId)?.[1]
      if (!other) return move(view.x + to[0] - from[0], view.y + to[1] - from[1])
      const apart = (p: Pixel) => Math.max(1, Math.hypot(p[0] - other[0], p[1] - other[1]))
      const between = (p: Pixel): Pixel => [(p[0] + other[0]) / 2, (p[1] + other[1]) / 2]
      const [was, is] = [between(from), between(to)]
      move(view.x + is[0] - was[0], view.y + is[1] - was[1])
      zoomAt(is, apart(to) / apart(from))
    },
    options,
  )
  canvas.addEventListener(
    'pointerup',
    (event) => {
      if (!pressed.delete(event.pointerId)) return
      if (isTap) tapAt(pixel(event))
      isTap = false
    },
    options,
  )
  canvas.addEventListener(
    'pointercancel',
    (event) => {
      pressed.delete(event.pointerId)
      isTap = false
    },
    options,
  )
  canvas.addEventListener(
    'wheel',
    (event) => {
      event.preventDefault()
      zoomAt(pixel(event), WHEEL_STEP ** -event.deltaY)
    },
    { ...options, passive: false },
  )
  canvas.addEventListener(
    'keydown',
    (event) => {
      const step = arrowStep(event)
      if (step) move(view.x - step[0], view.y - step[1])
      else if (event.key === '+' || event.key === '=') zoomAt(middle(), KEY_STEP)
      else if (event.key === '-') zoomAt(middle(), 1 / KEY_STEP)
      else if (event.key === 'Enter') tapAt(middle())
      else return
      event.preventDefault()
    },
    options,
  )

  return {
    show(given) {
      shown = given
      paint()
    },
    fit: seeAll,
    zoomBy: (factor) => zoomAt(middle(), factor),
    remove() {
      stop.abort()
      sized.disconnect()
      marks.remove()
      canvas.remove()
    },
  }
}
