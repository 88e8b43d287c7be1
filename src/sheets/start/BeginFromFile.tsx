import { beginFrom, bringFault } from '../state/bringing.ts'

/** Begins a farm of one's own with a file of another program. */
export function BeginFromFile() {
  return (
    <>
      <label class="way">
        <strong>Begin from a map file</strong>
        <span>GeoJSON, GeoPackage, KML, GPX, zipped shapefiles, or a table with coordinates</span>
        <input type="file" multiple onChange={(event) => void beginFrom([...(event.currentTarget.files ?? [])])} />
      </label>
      {bringFault.value && (
        <p class="fault" role="alert">
          {bringFault.value.detail}
        </p>
      )}
    </>
  )
}
