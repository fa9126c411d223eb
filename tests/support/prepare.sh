# shellcheck shell=bash disable=SC2034
# Brings a bare Debian 12 to a built drumlin. Sourced by cases/demo.sh, tests/run.sh and .ci/run;
# a second call finds everything in place and does nothing.

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)

# What the top CMakeLists.txt asks for (libgl-dev: VTK's own configuration looks for it).
build_packages=(
  g++ cmake ninja-build pkg-config
  libeigen3-dev libboost-dev libfftw3-dev libtbb-dev libfmt-dev libtomlplusplus-dev libcli11-dev
  nlohmann-json3-dev libssl-dev libsqlite3-dev zlib1g-dev libhdf5-dev libvtk9-dev libgtest-dev libgmock-dev
  libgl-dev libegl-dev libegl-mesa0 libgl1-mesa-dri
)
# Readers that are not ours, to read back what was written (librsvg: pictures), and finite elements
# that are not ours.
test_packages=(python3-h5py python3-pandas python3-xarray python3-vtk9 librsvg2-bin calculix-ccx)

say() { printf 'drumlin: %s\n' "$*" >&2; }

give_up() {
  say "$@"
  exit 1
}

missing_packages() {
  local package
  for package in "$@"; do
    [ "$(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null)" = installed ] ||
      printf '%s ' "$package"
  done
}

os_release=${os_release:-/etc/os-release}

is_debian_12() {
  # shellcheck disable=SC1090  # a file of the system
  [ -r "$os_release" ] && (. "$os_release" && [ "${ID:-}:${VERSION_ID:-}" = debian:12 ])
}

# Installs those of the named packages that are not there; nothing is asked, nothing is started
# where all are there.
need_packages() {
  command -v dpkg-query >/dev/null ||
    give_up "this script installs Debian packages and there is no dpkg here. Install the like of: $*"
  local missing
  missing=$(missing_packages "$@")
  [ -n "$missing" ] || return 0
  is_debian_12 ||
    give_up "tried on Debian 12 only, and this is another system. Missing here: $missing"
  local as_root=(env)
  if [ "$(id -u)" -ne 0 ]; then
    command -v sudo >/dev/null || give_up "neither root nor sudo. Ask an administrator to run:" \
      "apt-get install --no-install-recommends $missing"
    as_root=(sudo env)
  fi
  say "installing $missing"
  local apt=("${as_root[@]}" DEBIAN_FRONTEND=noninteractive apt-get -q -y
    -o Dpkg::Use-Pty=0 -o Acquire::Retries=2)
  # A package source that cannot be reached is not yet a failure: the lists may be there already.
  "${apt[@]}" update >&2 || say "apt-get update failed; trying with the package lists at hand"
  # shellcheck disable=SC2086  # the list is meant to fall into words
  "${apt[@]}" install --no-install-recommends $missing >&2 ||
    give_up "packages could not be installed (no network, or no right to?): $missing"
  missing=$(missing_packages "$@")
  [ -z "$missing" ] || give_up "still missing after the installation: $missing"
}

# One compiler per core, but not more than the free memory feeds: the largest source takes 1 GiB.
build_jobs() {
  local cores free_kib limit jobs
  cores=$(nproc)
  free_kib=$(awk '/^MemAvailable:/ { print $2 }' /proc/meminfo)
  limit=$(cat /sys/fs/cgroup/memory.max 2>/dev/null || true)
  if [[ $limit =~ ^[0-9]+$ ]] && [ $((limit / 1024)) -lt "$free_kib" ]; then
    free_kib=$((limit / 1024))
  fi
  jobs=$((free_kib / 1048576))
  if [ "$jobs" -gt "$cores" ]; then jobs=$cores; fi
  if [ "$jobs" -lt 1 ]; then jobs=1; fi
  echo "$jobs"
}

# What a compiler cache keeps of another folder serves here too: same text and flags, same object.
compiler_cache() {
  command -v ccache >/dev/null || return 0
  echo "-DCMAKE_CXX_COMPILER_LAUNCHER=env;CCACHE_BASEDIR=$root;CCACHE_NOHASHDIR=1;ccache"
}

# build PRESET TARGET [configure options]: configures once, then lets Ninja do what is left to do.
build() {
  local preset=$1 target=$2 folder=$root/build/$1
  shift 2
  local fresh=()
  # A build folder that came along with a copied tree still points at the old place.
  if [ -f "$folder/CMakeCache.txt" ] &&
    ! grep -qxF "CMAKE_HOME_DIRECTORY:INTERNAL=$root" "$folder/CMakeCache.txt"; then
    fresh=(--fresh)
  fi
  if [ ! -f "$folder/build.ninja" ] || [ ${#fresh[@]} -gt 0 ] || [ $# -gt 0 ]; then
    local cache
    cache=$(compiler_cache)
    (cd "$root" && cmake --preset "$preset" "${fresh[@]}" ${cache:+"$cache"} "$@") >&2 ||
      give_up "the configuration failed (see above)"
  fi
  (cd "$root" && cmake --build --preset "$preset" --target "$target" --parallel "$(build_jobs)") \
    >&2 || give_up "the build failed (see above)"
}
