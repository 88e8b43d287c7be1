import type { ComponentChildren } from 'preact'
import { useEffect, useRef, useState } from 'preact/hooks'

/** A button that opens a small list of deeds; Escape or a tap elsewhere shuts it. */
export function Menu({ label, children }: { readonly label: string; readonly children: ComponentChildren }) {
  const [open, setOpen] = useState(false)
  const whole = useRef<HTMLDivElement>(null)
  useEffect(() => {
    if (!open) return
    const shut = (event: Event) => {
      if (event instanceof KeyboardEvent ? event.key === 'Escape' : !whole.current?.contains(event.target as Node))
        setOpen(false)
    }
    document.addEventListener('pointerdown', shut)
    document.addEventListener('keydown', shut)
    return () => {
      document.removeEventListener('pointerdown', shut)
      document.removeEventListener('keydown', shut)
    }
  }, [open])
  return (
    <div class="menu" ref={whole}>
      <button type="button" aria-expanded={open} onClick={() => setOpen(!open)}>
        {label}
      </button>
      {open && (
        // biome-ignore lint/a11y/noStaticElementInteractions lint/a11y/useKeyWithClickEvents: a tap on any deed inside shuts the list
        <div class="menu-list" onClick={() => setOpen(false)}>
          {children}
        </div>
      )}
    </div>
  )
}
