#!/usr/bin/env bash
# Runs a command as a container engine would with --read-only and --cap-drop all: on a root of its own that cannot be
# written, as a user without rights, with one volume. Needs root, and a mount namespace of its own around it:
#   unshare --mount in-container.sh ROOT APP FOLDER DATA VOLUME UID:GID PREPARE COMMAND...
set -euo pipefail
root=$1 app=$2 folder=$3 data=$4 volume=$5 user=$6 prepare=$7
shift 7
mount -t tmpfs -o mode=755 tmpfs "$root"
for part in bin sbin lib lib32 lib64 libx32 usr etc; do
  if [ -L "/$part" ]; then cp -P "/$part" "$root/$part"
  elif [ -d "/$part" ]; then
    mkdir "$root/$part"
    mount --bind "/$part" "$root/$part"
    mount -o remount,bind,ro "$root/$part"
  fi
done
mkdir "$root/proc" "$root/dev" "$root/tmp"
mount --rbind /proc "$root/proc"
for device in null zero urandom random; do
  touch "$root/dev/$device"
  mount --bind "/dev/$device" "$root/dev/$device"
done
mkdir -p "$root$folder"
mount --bind "$app" "$root$folder"
mount -o remount,bind,ro "$root$folder"
chroot "$root" /bin/sh -euc "$prepare"
# A fresh volume takes over whose the image's folder is.
if [ "$(stat -c %u "$data")" = 0 ]; then
  chown --reference="$root$volume" "$data"
  chmod --reference="$root$volume" "$data"
fi
mount --bind "$data" "$root$volume"
mount -t tmpfs -o mode=1777 tmpfs "$root/tmp"
mount -o remount,ro "$root"
cd /
exec chroot "$root" /usr/bin/setpriv --reuid="${user%:*}" --regid="${user#*:}" --clear-groups --no-new-privs \
  --bounding-set=-all --inh-caps=-all /usr/bin/env --chdir="$folder" "$@"
