import { bringArchive } from '../state/opening.ts'

/** Brings in a farm that was saved as an archive. */
export function OpenArchive() {
  return (
    <label class="way">
      <strong>Open an archive</strong>
      <span>a .zip that was saved from here, or made by the command line</span>
      <input
        type="file"
        accept=".zip,application/zip"
        onChange={async (event) => {
          const file = event.currentTarget.files?.[0]
          if (file) await bringArchive(file.name, new Uint8Array(await file.arrayBuffer()), false)
        }}
      />
    </label>
  )
}
