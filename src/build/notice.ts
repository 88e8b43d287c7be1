import { writeFile } from 'node:fs/promises'
import { makeNotice } from './notice/makeNotice.ts'

// `npm run notice`: writes the notice anew when packages have come, gone or changed.
await writeFile(new URL('../NOTICE.txt', import.meta.url), await makeNotice())
