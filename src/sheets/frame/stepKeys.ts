import { redo, undo } from '../state/steps.ts'

/** Ctrl+Z and Ctrl+Shift+Z (or Ctrl+Y) anywhere but in an entry, where they are the entry's own. */
export function listenForStepKeys(): void {
  addEventListener('keydown', (event) => {
    if (!(event.ctrlKey || event.metaKey) || event.altKey || isEntry(event.target)) return
    const key = event.key.toLowerCase()
    if (key === 'z' && !event.shiftKey) void undo()
    else if ((key === 'z' && event.shiftKey) || key === 'y') void redo()
    else return
    event.preventDefault()
  })
}

const TYPED = new Set(['text', 'search', 'number', 'date', 'email', 'url', 'tel', 'password'])

function isEntry(target: EventTarget | null): boolean {
  return (
    target instanceof HTMLTextAreaElement ||
    target instanceof HTMLSelectElement ||
    (target instanceof HTMLInputElement && TYPED.has(target.type))
  )
}
