/** What the trial reads now: each channel with what the instrument said and the temperature of it, errors by name. */
import type { MilliCelsius } from '../../../server/measure/quantity.ts';
import type { TrialView } from '../../../server/screen/contract.ts';
import { temperatureText } from '../../../server/wording/temperature.ts';
import { qualityText } from '../../../server/wording/words.ts';

export function Trial({ view }: { readonly view: TrialView }) {
  return (
    <>
      {view.instruments.map((instrument) => (
        <section class="sheet" key={instrument.board} aria-label={instrument.board}>
          <h3>
            {instrument.board}: {stateTexts[instrument.state]}
          </h3>
          {instrument.state !== 'open' && instrument.cause !== '' && (
            <p class={instrument.state === 'opening' ? 'aside' : 'notice'}>
              {instrument.cause}. {instrument.advice ?? ''}
            </p>
          )}
          <div class="scrolls">
            <table>
              <thead>
                <tr>
                  <th scope="col">Channel</th>
                  <th scope="col">Temperature</th>
                  <th scope="col">As it came</th>
                  <th scope="col">Ago</th>
                </tr>
              </thead>
              <tbody>
                {instrument.channels.map(({ channel, thermocouple, reading }) => (
                  <tr key={channel}>
                    <th scope="row">
                      {channel}, type {thermocouple}
                    </th>
                    <td>
                      {reading === undefined
                        ? 'nothing yet'
                        : reading.temperature === undefined
                          ? qualityText(reading.quality)
                          : temperatureText(reading.temperature as MilliCelsius, 'metric')}
                    </td>
                    <td>
                      <code>{reading?.said ?? ''}</code>
                    </td>
                    <td>{reading === undefined ? '' : `${Math.round(reading.agoMilliseconds / 1000)} s`}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
          <p class="aside">{countsText(instrument)}</p>
        </section>
      ))}
    </>
  );
}

const stateTexts: Readonly<Record<TrialView['instruments'][number]['state'], string>> = {
  opening: 'being opened',
  'waiting for hello': 'open, nothing read yet',
  open: 'is read',
  lost: 'lost',
  refused: 'cannot be read',
};

const countsText = ({ good, errors, last }: TrialView['instruments'][number]): string => {
  const wrong = errors.map(({ what, times }) => `${what} ${times}`).join(', ');
  return `Good ${good}${wrong === '' ? ', no errors.' : `; ${wrong}.`}${last === undefined ? '' : ` Last trouble: ${last}.`}`;
};
