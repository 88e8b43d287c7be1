import { useState } from 'preact/hooks'
import { later } from '../../ui/later.tsx'

const Notebook = later(async () => (await import('./notebook/Notebook.tsx')).Notebook)

/** Opens the bringing in of an old notebook, which is fetched only then. */
export function NotebookButton() {
  const [open, setOpen] = useState(false)
  return (
    <section aria-label="An old notebook">
      <h2>An old notebook</h2>
      <p>Picks that were written down elsewhere, as a table: pasted, or as a CSV file.</p>
      <button type="button" onClick={() => setOpen(true)}>
        Bring it in
      </button>
      {open && <Notebook onClose={() => setOpen(false)} />}
    </section>
  )
}
