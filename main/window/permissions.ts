/** No page of ours needs a camera, a place, a notice or a device: everything asked for is refused. */
import type { Session } from 'electron';

/** Refuses every permission, when it is asked for and when it is looked up. */
export function refusePermissions(session: Session): void {
  session.setPermissionRequestHandler((_contents, _permission, answer) => answer(false));
  session.setPermissionCheckHandler(() => false);
  session.setDevicePermissionHandler(() => false);
}
