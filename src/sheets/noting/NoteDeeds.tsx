import { startNoting } from '../state/noting.ts'

/** Begins a note: of something seen, or of what was put on the soil; of a bed, or of a place yet to be told. */
export function NoteDeeds({ bed }: { readonly bed: string | null }) {
  return (
    <div class="note-deeds" data-print="no">
      <button type="button" onClick={() => startNoting({ of: 'observations', bed, at: null, correcting: null })}>
        Note what is seen
      </button>
      <button type="button" onClick={() => startNoting({ of: 'dressings', bed, at: null, correcting: null })}>
        Note a dressing
      </button>
    </div>
  )
}
