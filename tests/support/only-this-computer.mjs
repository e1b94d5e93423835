// Loaded before tests and before the program in walkthroughs: no connection leaves this computer.
import net from 'node:net';

const LOCAL = /^(?:localhost|127(?:\.\d+){3}|::1|)$/;
const connect = net.Socket.prototype.connect;

/** What was asked for, in any of the shapes that a socket takes. */
function optionsOf([first, second]) {
  if (Array.isArray(first)) return optionsOf(first);
  if (typeof first === 'object' && first !== null) return first;
  return typeof first === 'string' && Number.isNaN(Number(first)) ? { path: first } : { host: typeof second === 'string' ? second : '' };
}

net.Socket.prototype.connect = function connectHere(...values) {
  const { path, host = '' } = optionsOf(values);
  if (typeof path === 'string' || LOCAL.test(String(host))) return connect.apply(this, values);
  process.nextTick(() => this.destroy(Object.assign(new Error(`A test wanted to reach ${host}.`), { code: 'EACCES' })));
  return this;
};
