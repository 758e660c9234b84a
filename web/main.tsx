/** Where the page begins: starts the line to the station, the clock and the theme, and shows the page of the address. */
import { render } from 'preact';
import { JointPage } from './pages/joint/joint-page.tsx';
import { OverviewPage } from './pages/overview/overview-page.tsx';
import { RecordPage } from './pages/record/record-page.tsx';
import { NotLoaded, useLoaded } from './parts/lazy.tsx';
import { Shell } from './parts/shell.tsx';
import { startCalls } from './state/calls.ts';
import { overviewAddress, type ProcedureRoute, route, startRoute } from './state/route.ts';
import { startSignOn } from './state/sign-on.ts';
import { startSound } from './state/sound.ts';
import { startStation } from './state/station.ts';
import { startTheme } from './state/theme.ts';

function App() {
  return (
    <Shell>
      <Page />
    </Shell>
  );
}

function Page() {
  const now = route.value;
  switch (now.page) {
    case 'overview':
      return <OverviewPage />;
    case 'joint':
      return <JointPage key={now.joint} joint={now.joint} />;
    case 'record':
      return <RecordPage key={now.joint} joint={now.joint} />;
    case 'requirement':
      return <Requiring key={now.joint} joint={now.joint} />;
    case 'procedures':
    case 'procedure':
    case 'new revision':
      return <Procedures route={now} />;
    case 'new joint':
      return <Entering key="new" />;
    case 'hand-over':
      return <HandingOver />;
    case 'judge logs':
      return <JudgingLogs />;
    case 'what if':
      return <Supposing key={now.joint} joint={now.joint} />;
    case 'past':
      return <Past view="found" />;
    case 'past counts':
      return <Past view="counts" />;
    case 'instruments':
      return <Instruments />;
    case 'links':
      return <Links />;
    case 'people':
      return <People />;
    case 'repair joint':
      return <Entering key={`repair ${now.joint}`} repairing={now.joint} />;
    case 'correct joint':
      return <Entering key={now.joint} correcting={now.joint} />;
    case 'unknown':
      return (
        <section class="sheet">
          <h1>No such page</h1>
          <p>
            There is nothing at {now.address}. <a href={overviewAddress}>Go to the joints</a>.
          </p>
        </section>
      );
  }
}

/** The formulas come along with this page; whoever only watches does not wait for them. */
function Requiring({ joint }: { readonly joint: string }) {
  const requiring = useLoaded(() => import('./pages/requirement/requirement-page.tsx'));
  if (requiring === 'loading' || requiring === 'failed') return <NotLoaded state={requiring} />;
  return <requiring.RequirementPage joint={joint} />;
}

function HandingOver() {
  const page = useLoaded(() => import('./pages/hand-over/hand-over-page.tsx'));
  if (page === 'loading' || page === 'failed') return <NotLoaded state={page} />;
  return <page.HandOverPage />;
}

function JudgingLogs() {
  const page = useLoaded(() => import('./pages/judge/judge-page.tsx'));
  if (page === 'loading' || page === 'failed') return <NotLoaded state={page} />;
  return <page.JudgePage />;
}

function Past({ view }: { readonly view: 'found' | 'counts' }) {
  const page = useLoaded(() => import('./pages/past/past-page.tsx'));
  if (page === 'loading' || page === 'failed') return <NotLoaded state={page} />;
  return <page.PastPage view={view} />;
}

function Instruments() {
  const page = useLoaded(() => import('./pages/instruments/instruments-page.tsx'));
  if (page === 'loading' || page === 'failed') return <NotLoaded state={page} />;
  return <page.InstrumentsPage />;
}

function Supposing({ joint }: { readonly joint: string }) {
  const page = useLoaded(() => import('./pages/what-if/what-if-page.tsx'));
  if (page === 'loading' || page === 'failed') return <NotLoaded state={page} />;
  return <page.WhatIfPage joint={joint} />;
}

function Links() {
  const page = useLoaded(() => import('./pages/links/links-page.tsx'));
  if (page === 'loading' || page === 'failed') return <NotLoaded state={page} />;
  return <page.LinksPage />;
}

function People() {
  const people = useLoaded(() => import('./pages/people/people-page.tsx'));
  if (people === 'loading' || people === 'failed') return <NotLoaded state={people} />;
  return <people.PeoplePage />;
}

/** Entering a joint brings the schema and the formulas along; whoever only watches does not wait for them. */
function Entering(props: { readonly correcting?: string; readonly repairing?: string }) {
  const entering = useLoaded(() => import('./pages/new-joint/new-joint-page.tsx'));
  if (entering === 'loading' || entering === 'failed') return <NotLoaded state={entering} />;
  return <entering.NewJointPage {...props} />;
}

/** Apart like the entering of a joint: it brings the schema along. */
function Procedures({ route: asked }: { readonly route: ProcedureRoute }) {
  const pages = useLoaded(() => import('./pages/procedures/pages.tsx'));
  if (pages === 'loading' || pages === 'failed') return <NotLoaded state={pages} />;
  return <pages.ProcedurePages route={asked} />;
}

startTheme();
startRoute();
startStation();
startSound();
startCalls();
startSignOn();
const root = document.getElementById('app');
if (root !== null) {
  root.textContent = '';
  render(<App />, root);
}
