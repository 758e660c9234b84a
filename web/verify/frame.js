// Runs in the frame that is shut in: makes a worker of the rules, hands it the entries, and gives its answer out as text.
addEventListener('message', ({ data: { rules, entries } }) => {
  const answer =
    "onmessage = ({ data }) => { let said; try { said = rules.judge(data); } catch (error) { said = JSON.stringify({ failed: String(error && error.message) }); } postMessage(typeof said === 'string' ? said : 'none'); };";
  const address = URL.createObjectURL(new Blob([rules, '\n;', answer], { type: 'text/javascript' }));
  const worker = new Worker(address);
  const tell = (text) => {
    worker.terminate();
    parent.postMessage(text, '*');
  };
  worker.onmessage = ({ data }) => tell(data);
  worker.onerror = ({ message }) => tell(JSON.stringify({ failed: String(message || 'the rules could not be run') }));
  worker.postMessage(entries);
});
parent.postMessage('ready', '*');
