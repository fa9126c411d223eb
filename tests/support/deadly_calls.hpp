#pragma once

#include <functional>

/// Kills a process at a chosen call that changes the disk, as kill -9 would just before that call.
/// A program that links this stands before the C library's own functions; it has to export its
/// symbols (ENABLE_EXPORTS), so that shared libraries find them.
namespace drumlin::support {

/// How many such calls a piece of work makes.
[[nodiscard]] long disk_calls_of(const std::function<void()>& work);

/// Does the work in a child that dies at a call. @return whether it was killed; false: it ended
/// before that call.
[[nodiscard]] bool killed_at(long call, const std::function<void()>& work);

}  // namespace drumlin::support
