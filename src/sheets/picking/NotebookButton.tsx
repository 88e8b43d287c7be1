import type { ComponentType } from 'preact'
import { useState } from 'preact/hooks'

type Opened = ComponentType<{ readonly onClose: () => void }>

/** Opens the bringing in of an old notebook, which is fetched only then. */
export function NotebookButton() {
  const [Notebook, setNotebook] = useState<{ readonly is: Opened } | null>(null)
  return (
    <section aria-label="An old notebook">
      <h2>An old notebook</h2>
      <p>Picks that were written down elsewhere, as a table: pasted, or as a CSV file.</p>
      <button
        type="button"
        onClick={async () => {
          const { Notebook } = await import('./notebook/Notebook.tsx')
          setNotebook({ is: Notebook })
        }}
      >
        Bring it in
      </button>
      {Notebook && <Notebook.is onClose={() => setNotebook(null)} />}
    </section>
  )
}
