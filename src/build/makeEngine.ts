import { engineFiles } from '../../geo/store/template/engineFiles.ts'

// Run when the packages have been installed, so that the first command need not wait. What fails here is tried again
// on first need and said there.
await engineFiles().catch((error: unknown) => console.warn(`The database template was not made: ${error}`))
