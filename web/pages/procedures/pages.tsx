/** The store of procedures: its list, one procedure, or a new revision. */
import type { ProcedureRoute } from '../../state/route.ts';
import { ProcedurePage } from './procedure-page.tsx';
import { ProceduresPage } from './procedures-page.tsx';
import { RevisionPage } from './revision-page.tsx';

export function ProcedurePages({ route }: { readonly route: ProcedureRoute }) {
  switch (route.page) {
    case 'procedures':
      return <ProceduresPage />;
    case 'procedure':
      return <ProcedurePage key={route.procedure} procedure={route.procedure} />;
    case 'new revision': {
      const { procedure: of } = route;
      return <RevisionPage key={of ?? ''} {...(of === undefined ? {} : { of })} />;
    }
  }
}
