import type { ComponentChildren } from 'preact'
import { useEffect, useId, useRef } from 'preact/hooks'

interface Props {
  readonly title: string
  readonly onClose: () => void
  /** Takes the room that the screen has, for what needs it. */
  readonly wide?: boolean
  readonly children: ComponentChildren
}

/** A card over everything, for what must be read or answered first. Escape closes it; focus stays inside. */
export function Dialog({ title, onClose, wide = false, children }: Props) {
  const dialog = useRef<HTMLDialogElement>(null)
  const id = useId()
  useEffect(() => {
    dialog.current?.showModal()
    dialog.current?.querySelector<HTMLElement>('input, select, .first-deed')?.focus()
  }, [])
  return (
    <dialog ref={dialog} class={wide ? 'wide' : ''} aria-labelledby={id} onClose={onClose}>
      <div class="dialog-head">
        <h2 id={id}>{title}</h2>
        <button type="button" class="quiet" onClick={() => dialog.current?.close()}>
          Close
        </button>
      </div>
      {children}
    </dialog>
  )
}
