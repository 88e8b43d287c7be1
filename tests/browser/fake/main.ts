import '../../../src/styles/page.css'
import { startPage } from '../../../src/sheets/startPage.tsx'
import { fakeDesk } from './fakeDesk.ts'

startPage(document.getElementById('page')!, fakeDesk())
