import './marks.css'
import { arrowStep } from './crosshair.ts'
import type { Pixel } from './overlay.ts'

/** A numbered spot over a picture or the map, in CSS pixels from the upper left corner. */
export interface Mark {
  readonly id: string
  readonly number: number
  readonly at: Pixel
  readonly chosen: boolean
  /** Fits worst of all, so far off that it stands out. */
  readonly bad: boolean
}

/** What is heard of hands and keys on marks. */
export interface MarkHearer {
  choose(id: string): void
  /** Dragged, or moved by arrow keys, to here. */
  move(id: string, to: Pixel): void
  remove(id: string): void
}

export interface Marks {
  show(marks: readonly Mark[]): void
  remove(): void
}

/** A press that moves less is a tap. */
const TAP_PX = 4

/**
 * Numbered marks as buttons over an element: chosen by a tap or by focus, dragged by mouse or finger, moved by arrow
 * keys (with Shift by single pixels), removed by Delete. `where` says what they lie on, for those who can't see it.
 */
export function makeMarks(container: HTMLElement, where: string, hear: MarkHearer): Marks {
  const layer = document.createElement('div')
  layer.className = 'marks'
  container.append(layer)
  const buttons = new Map<string, HTMLButtonElement>()
  const places = new Map<string, Pixel>()

  const make = (id: string): HTMLButtonElement => {
    const button = document.createElement('button')
    button.type = 'button'
    button.className = 'mark'
    button.append(document.createElement('span'))
    let press: { readonly pointer: number; readonly from: Pixel; readonly mark: Pixel; moved: boolean } | null = null
    button.addEventListener('pointerdown', (event) => {
      if (event.button !== 0) return
      press = { pointer: event.pointerId, from: [event.clientX, event.clientY], mark: places.get(id)!, moved: false }
      button.setPointerCapture(event.pointerId)
    })
    button.addEventListener('pointermove', (event) => {
      if (press?.pointer !== event.pointerId) return
      const [dx, dy] = [event.clientX - press.from[0], event.clientY - press.from[1]]
      press.moved ||= Math.hypot(dx, dy) > TAP_PX
      if (press.moved) hear.move(id, [press.mark[0] + dx, press.mark[1] + dy])
    })
    for (const name of ['pointerup', 'pointercancel'] as const)
      button.addEventListener(name, () => {
        press = null
      })
    button.addEventListener('focus', () => hear.choose(id))
    button.addEventListener('keydown', (event) => {
      const step = arrowStep(event)
      const at = places.get(id)!
      if (step) hear.move(id, [at[0] + step[0], at[1] + step[1]])
      else if (event.key === 'Delete' || event.key === 'Backspace') hear.remove(id)
      else return
      event.preventDefault()
    })
    layer.append(button)
    return button
  }

  return {
    show(marks) {
      const wanted = new Set(marks.map(({ id }) => id))
      for (const [id, button] of buttons)
        if (!wanted.has(id)) {
          button.remove()
          buttons.delete(id)
        }
      for (const { id, number, at, chosen, bad } of marks) {
        const button = buttons.get(id) ?? make(id)
        buttons.set(id, button)
        places.set(id, at)
        button.classList.toggle('chosen', chosen)
        button.classList.toggle('bad', bad)
        button.firstElementChild!.textContent = String(number)
        button.setAttribute('aria-label', `Point ${number} ${where}. Arrow keys move it, Delete removes it.`)
        button.style.translate = `${at[0]}px ${at[1]}px`
      }
    },
    remove: () => layer.remove(),
  }
}
