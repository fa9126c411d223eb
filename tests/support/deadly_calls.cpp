#include "tests/support/deadly_calls.hpp"

#include <atomic>
#include <csignal>
#include <cstdio>

#include <dlfcn.h>
#include <sys/types.h>
#include <sys/uio.h>
#include <sys/wait.h>
#include <unistd.h>

namespace {

std::atomic<long> calls{0};
std::atomic<long> deadly_call{-1};

void count_call() {
  if (++calls == deadly_call) kill(getpid(), SIGKILL);
}

template <class Function>
Function next(const char* name) {
  return reinterpret_cast<Function>(dlsym(RTLD_NEXT, name));
}

}  // namespace

extern "C" {
ssize_t write(int file, const void* bytes, size_t count) {
  static const auto real = next<ssize_t (*)(int, const void*, size_t)>("write");
  count_call();
  return real(file, bytes, count);
}
ssize_t writev(int file, const iovec* parts, int count) {
  static const auto real = next<ssize_t (*)(int, const iovec*, int)>("writev");
  count_call();
  return real(file, parts, count);
}
ssize_t pwrite(int file, const void* bytes, size_t count, off_t at) {
  static const auto real = next<ssize_t (*)(int, const void*, size_t, off_t)>("pwrite");
  count_call();
  return real(file, bytes, count, at);
}
ssize_t pwrite64(int file, const void* bytes, size_t count, off_t at) {
  static const auto real = next<ssize_t (*)(int, const void*, size_t, off_t)>("pwrite64");
  count_call();
  return real(file, bytes, count, at);
}
int mkdir(const char* path, mode_t mode) noexcept {
  static const auto real = next<int (*)(const char*, mode_t)>("mkdir");
  count_call();
  return real(path, mode);
}
int fsync(int file) {
  static const auto real = next<int (*)(int)>("fsync");
  count_call();
  return real(file);
}
int renameat2(int from_dir, const char* from, int to_dir, const char* to, unsigned flags) noexcept {
  static const auto real = next<int (*)(int, const char*, int, const char*, unsigned)>("renameat2");
  count_call();
  return real(from_dir, from, to_dir, to, flags);
}
int rename(const char* from, const char* to) noexcept {
  static const auto real = next<int (*)(const char*, const char*)>("rename");
  count_call();
  return real(from, to);
}
int unlink(const char* path) noexcept {
  static const auto real = next<int (*)(const char*)>("unlink");
  count_call();
  return real(path);
}
int ftruncate(int file, off_t length) noexcept {
  static const auto real = next<int (*)(int, off_t)>("ftruncate");
  count_call();
  return real(file, length);
}
int ftruncate64(int file, off_t length) noexcept {
  static const auto real = next<int (*)(int, off_t)>("ftruncate64");
  count_call();
  return real(file, length);
}
int fdatasync(int file) {
  static const auto real = next<int (*)(int)>("fdatasync");
  count_call();
  return real(file);
}
int unlinkat(int dir, const char* path, int flags) noexcept {
  static const auto real = next<int (*)(int, const char*, int)>("unlinkat");
  count_call();
  return real(dir, path, flags);
}
}

namespace drumlin::support {

long disk_calls_of(const std::function<void()>& work) {
  const long before = calls;
  work();
  return calls - before;
}

bool killed_at(long call, const std::function<void()>& work) {
  const pid_t child = fork();
  if (child == 0) {
    calls = 0;
    deadly_call = call;
    work();
    _exit(0);
  }
  int status = 0;
  waitpid(child, &status, 0);
  return WIFSIGNALED(status) && WTERMSIG(status) == SIGKILL;
}

}  // namespace drumlin::support
